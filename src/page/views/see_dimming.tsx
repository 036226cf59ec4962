// Sliders for circuits, moods as buttons, and what is set saved as a mood.

import { useId, useRef } from 'preact/hooks';
import { signal } from '@preact/signals';
import { change, room } from '../job/job_desk';
import { keysAt } from '../job/written';
import { Chip } from '../parts/chip';
import { percentText } from '../parts/light_text';
import { problemText } from '../parts/problem_text';
import { say } from '../parts/said';
import {
  allAt,
  type CircuitNow,
  circuitsNow,
  isAsInJob,
  k_as_in_job,
  k_full_setting,
  settingsWritten,
  withSetting,
} from './see_light';
import { lighting, relight, shown } from './see_state';

/** Cans at several levels have no setting in common, and cans on no circuit no dimmer. */
function settingWords({ circuit: { name, dimmed }, setting, levels: [least, most] }: CircuitNow): string {
  if (least !== most) return `light ${percentText(least)} to ${percentText(most)}`;
  const light = `light ${percentText(least)}`;
  if (name === null) return light;
  return `${dimmed ? `setting ${setting} %` : 'switched'}, ${light}`;
}

const nameOf = ({ circuit: { name } }: CircuitNow): string => name ?? 'Cans on no circuit';

const k_slid_px = 8;

/**
 * Hands on a slider: a finger that goes up or down scrolls, and only one that goes sideways, or taps, sets it. What a
 * slider itself does at the first touch waits until that is known.
 *
 * @param value to which a slider goes back when the finger scrolls
 */
function useSlider(value: number, onValue: (value: number) => void) {
  const touch = useRef<{ readonly x: number; readonly state: 'undecided' | 'scrolls' } | null>(null);
  const decide = (slider: HTMLInputElement): void => {
    touch.current = null;
    onValue(slider.valueAsNumber);
  };
  type Of<E extends Event> = E & { readonly currentTarget: HTMLInputElement };
  return {
    onPointerDown: ({ pointerType, clientX }: PointerEvent) => {
      touch.current = pointerType === 'touch' ? { x: clientX, state: 'undecided' } : null;
    },
    onPointerMove: ({ clientX, currentTarget }: Of<PointerEvent>) => {
      const now = touch.current;
      if (now?.state === 'undecided' && Math.abs(clientX - now.x) > k_slid_px) decide(currentTarget);
    },
    onPointerUp: ({ currentTarget }: Of<PointerEvent>) => {
      if (touch.current?.state === 'undecided') decide(currentTarget);
    },
    onPointerCancel: ({ currentTarget }: Of<PointerEvent>) => {
      if (!touch.current) return;
      touch.current = { ...touch.current, state: 'scrolls' };
      currentTarget.valueAsNumber = value;
    },
    onInput: ({ currentTarget }: Of<Event>) => {
      if (!touch.current) onValue(currentTarget.valueAsNumber);
      else if (touch.current.state === 'scrolls') currentTarget.valueAsNumber = value;
    },
  };
}

function Dimmer({ now }: { now: CircuitNow }) {
  const id = useId();
  const words = settingWords(now);
  const slider = useSlider(now.setting, (setting) =>
    relight(withSetting(lighting.value, now.circuit.name, setting)),
  );
  return (
    <div class="dimmer">
      <label for={id}>{nameOf(now)}</label>
      <input
        id={id}
        type="range"
        min={0}
        max={k_full_setting}
        value={now.setting}
        aria-valuetext={words}
        {...slider}
      />
      <output for={id} class="soft">
        {words}
      </output>
    </div>
  );
}

function Switch({ now }: { now: CircuitNow }) {
  const isOn = now.setting > 0;
  return (
    <div class="dimmer switch">
      <label>
        <input
          type="checkbox"
          checked={isOn}
          onChange={({ currentTarget }) =>
            relight(withSetting(lighting.value, now.circuit.name, currentTarget.checked ? k_full_setting : 0))
          }
        />
        {nameOf(now)}
      </label>
      <span class="soft">{settingWords(now)}</span>
    </div>
  );
}

function MoodButtons() {
  const names = [...(shown.value?.model.moods.keys() ?? [])];
  const circuits = room.value?.circuits ?? [];
  const { mood, settings } = lighting.value;
  const isAll = (setting: number): boolean =>
    mood === null && settings.size > 0 && circuits.every(({ name }) => settings.get(name) === setting);
  const button = (label: string, isPressed: boolean, onPress: () => void) => (
    <Chip key={label} isPressed={isPressed} onPress={onPress}>
      {label}
    </Chip>
  );
  return (
    <fieldset class="chips">
      <legend>Moods</legend>
      {button('As in the job', isAsInJob(lighting.value), () => relight(k_as_in_job))}
      {names.map((name) =>
        button(name, mood === name && settings.size === 0, () => relight({ mood: name, settings: new Map() })),
      )}
      {button('All on', isAll(k_full_setting), () => relight(allAt(circuits, k_full_setting)))}
      {button('All off', isAll(0), () => relight(allAt(circuits, 0)))}
    </fieldset>
  );
}

const newName = signal('');
const problem = signal('');

const isMadeOtherwise = (name: string): boolean =>
  keysAt(['moods']).includes(name) && !keysAt(['moods', name]).includes('settings');

async function save(now: readonly CircuitNow[]): Promise<void> {
  const name = newName.value.trim();
  if (!name) {
    problem.value = 'Give the mood a name first.';
    return;
  }
  if (isMadeOtherwise(name)) {
    problem.value = `“${name}” is a mood made of levels or wishes: choose another name.`;
    return;
  }
  problem.value = await change([{ set: ['moods', name, 'settings'], value: settingsWritten(now) }]);
  if (problem.value) return;
  newName.value = '';
  say(`The mood “${name}” is saved in the job.`);
}

function SaveMood({ now }: { now: readonly CircuitNow[] }) {
  const id = useId();
  const hasOthers = now.some(({ circuit }) => circuit.name === null);
  if (now.every(({ circuit }) => circuit.name === null)) {
    return (
      <p class="soft">A mood sets circuits, and no can is on one: give the cans circuits in the plan to save moods.</p>
    );
  }
  return (
    <form
      class="save-mood"
      onSubmit={(event) => {
        event.preventDefault();
        void save(now);
      }}
    >
      <label for={id}>Save these settings as a mood named</label>
      <span>
        <input
          id={id}
          value={newName.value}
          autocomplete="off"
          aria-invalid={problem.value !== ''}
          aria-describedby={hasOthers ? `${id}-hint ${id}-problem` : `${id}-problem`}
          onInput={({ currentTarget }) => (newName.value = currentTarget.value)}
        />
        <button type="submit">Save</button>
      </span>
      {hasOthers && (
        <span id={`${id}-hint`} class="soft entry-text">
          Cans on no circuit keep the light that the job gives them, in every mood.
        </span>
      )}
      <span id={`${id}-problem`} class="wrong entry-text" role="status">
        {problemText(problem.value)}
      </span>
    </form>
  );
}

export function Dimming() {
  const model = shown.value?.model;
  if (!model) return null;
  const now = circuitsNow(model, lighting.value, room.value?.circuits ?? []);
  return (
    <section class="see-part" aria-label="Dimming">
      <MoodButtons />
      <div class="dimmers">
        {now.map((each, i) =>
          each.circuit.dimmed || each.circuit.name === null ? (
            <Dimmer key={i} now={each} />
          ) : (
            <Switch key={i} now={each} />
          ),
        )}
      </div>
      <SaveMood now={now} />
    </section>
  );
}
