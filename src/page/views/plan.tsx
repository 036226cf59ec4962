// The plan: what stands where, how the light falls, and everything that can be moved.

import { useSignalEffect } from '@preact/signals';
import { useRef } from 'preact/hooks';
import type { Room } from '../engine/results';
import { isRough, light, room as knownRoom } from '../job/job_desk';
import { Facts, Legend } from '../parts/facts';
import { fieldWords } from '../parts/field_words';
import { Icon } from '../parts/icon';
import { errorText, lightText } from '../parts/light_text';
import { isWall, move, nudge, stepOf } from './plan_drag';
import { PlanDrawing } from './plan_drawing';
import { zoomBy } from './plan_hands';
import { addCan } from './plan_new';
import { WorkPanel } from './plan_panels';
import { begin, notice, placeForNew, readAt, reading, selectedThing, size_px, told, work, zoomedScale } from './plan_state';
import { allOf, canWords, circuitLetter, isUnchecked, k_kinds, type Kind } from './plan_things';

const k_kinds_in_order = Object.keys(k_kinds).filter((word): word is Kind => Object.hasOwn(k_kinds, word));

/** What is happening or was refused, in one line over the plan. */
function Says({ room }: { room: Room }) {
  const now = move.value;
  const found = reading.value;
  const text = now?.placed && !isWall(now.of)
    ? `Can ${now.of.number}: ${now.placed.text}`
    : notice.value
      ? fieldWords(notice.value)
      : told.value
        ? told.value
        : found
        ? `Light here: ${lightText(found.lx, room.units, found.error_lx)}, right to ${errorText(found.error_lx, room.units)}. Read at the cross, the nearest point that is counted.`
        : 'Tap the floor to read the light; tap or drag a can.';
  const isWrong = now?.placed ? !now.at : notice.value !== '';
  return (
    <div class="says-line">
      <p class={isWrong ? 'says wrong' : 'says'} role="status">
        {text}
      </p>
      {found && !now && (
        <button type="button" aria-label="Clear the reading" onClick={() => (readAt.value = null)}>
          <Icon name="close" />
        </button>
      )}
    </div>
  );
}

const middle = (): readonly [number, number] => [size_px.value[0] / 2, size_px.value[1] / 2];

function Zoom() {
  return (
    <div class="zoom" role="group" aria-label="Zoom">
      <button type="button" aria-label="Closer" onClick={() => zoomBy(1.5, middle())}>
        <Icon name="closer" />
      </button>
      <button
        type="button"
        aria-label="Whole room"
        disabled={zoomedScale.value === null}
        onClick={() => (zoomedScale.value = null)}
      >
        <Icon name="whole" />
      </button>
    </div>
  );
}

function Tools({ room }: { room: Room }) {
  return (
    <div class="tools">
      <button type="button" class="main" onClick={(event) => void addCan(placeForNew(), room.cans.length, event)}>
        <Icon name="add" /> Can
      </button>
      <button type="button" aria-expanded={work.value === 'add'} onClick={() => begin('add')}>
        Add …
      </button>
      <button type="button" aria-expanded={work.value === 'room'} onClick={() => begin('room')}>
        Room
      </button>
      <Zoom />
    </div>
  );
}

/** What the map shows, in words. */
function Findings({ room }: { room: Room }) {
  const misfits = room.cans.filter((can) => can.fits === false);
  const unchecked = room.cans.filter((can) => isUnchecked(room, can));
  return (
    <section id="plan-findings" class="findings">
      {light.value && <p>{light.value.light.results.verdict}</p>}
      {misfits.map((can) => (
        <p key={can.number} class="wrong">
          Can {can.number} does not fit: {can.hits.join(', ')}.
        </p>
      ))}
      {unchecked.length > 0 && (
        <p class="wrong">
          Cans with a “?” are not checked against joists and vents, for the size of their hole is not known:{' '}
          {unchecked.map(({ number }) => number).join(', ')}. Tap one to type it.
        </p>
      )}
      {room.circuits.some(({ name }) => name !== null) && <Circuits room={room} />}
      {room.warnings.map((warning) => (
        <p key={warning.what}>
          {warning.what}. <span class="soft">{warning.hint}</span>
        </p>
      ))}
      <p class="soft">
        Before you cut or climb: power off, a probe for wires, pipes and framing, a ladder that stands. Licensed practice
        and the local code come first.
      </p>
    </section>
  );
}

function Circuits({ room }: { room: Room }) {
  const named = room.circuits.filter(({ name }) => name !== null);
  return (
    <p>
      Circuits:{' '}
      {named.map(({ name, dimmed }) => `${circuitLetter(room, name)} ${name}${dimmed ? ', dimmed' : ''}`).join('; ')}.
    </p>
  );
}

/** The same things as on the plan, to find them by name. */
function Contents({ room }: { room: Room }) {
  const labels = (kind: Kind): readonly string[] =>
    kind === 'can' ? room.cans.map((can) => canWords(room, can)) : allOf(room, kind).map(({ name }) => `${k_kinds[kind].title}: ${name}`);
  return (
    <details class="contents" onToggle={(event) => event.currentTarget.scrollIntoView({ block: 'nearest' })}>
      <summary>All that is in the room</summary>
      <div class="choices">
        {k_kinds_in_order.flatMap((kind) =>
          labels(kind).map((label, i) => (
            <button key={`${kind} ${i}`} type="button" onClick={() => begin({ kind, number: i + 1 })}>
              {label}
            </button>
          )),
        )}
      </div>
    </details>
  );
}

/** Arrow keys move what is selected, or else the place where the light is read. */
function onKey(event: KeyboardEvent): void {
  const target = event.target;
  if (target instanceof HTMLInputElement || target instanceof HTMLSelectElement) return;
  const step = stepOf(event.key, event.shiftKey);
  if (!step) return;
  const thing = selectedThing.value;
  if (thing) nudge(thing, step);
  else if (target instanceof SVGSVGElement) stepReading(step);
  else return;
  event.preventDefault();
}

/** To the next counted point. */
function stepReading([x, y]: readonly [number, number]): void {
  const grid = light.value?.light.grid;
  if (!grid) return;
  const [from_x, from_y] = reading.value?.at ?? placeForNew();
  readAt.value = [from_x + Math.sign(x) * grid.spacing_x_m, from_y + Math.sign(y) * grid.spacing_y_m];
}

export function Plan() {
  const room = knownRoom.value;
  const found = light.value?.light;
  const main = useRef<HTMLDivElement>(null);
  useSignalEffect(() => {
    if (work.value !== null) main.current?.scrollIntoView(); // on a phone the panel covers the lower half
  });
  return (
    <div class={work.value === null ? 'plan' : 'plan working'} onKeyDown={onKey}>
      <div class="plan-main" ref={main}>
        {room && found && <Facts room={room} light={found} isRough={isRough.value} />}
        {room && <Says room={room} />}
        <div class="plan-sheet">
          <PlanDrawing />
          {isRough.value && <span class="rough-mark">rough</span>}
        </div>
        {room && <Tools room={room} />}
      </div>
      <div class="plan-side">
        {room && found && <Legend steps={found.scale} units={room.units} />}
        {room && <Findings room={room} />}
        {room && <Contents room={room} />}
      </div>
      <WorkPanel />
    </div>
  );
}
