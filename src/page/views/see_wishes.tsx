// What moods are wished to give, what the engine finds for it, and new wishes.

import { signal } from '@preact/signals';
import type { Change } from '../engine/commands';
import type { Wish } from '../engine/results';
import { change, room } from '../job/job_desk';
import { Fold } from '../parts/fold';
import { lightText, percentText, roundedText, type Units } from '../parts/light_text';
import { problemText } from '../parts/problem_text';
import { say } from '../parts/said';
import { moodsNow } from './see_runs';

const k_as_wished = 0.01; // closer is as wished to any meter and any eye

const areaName = (area: string | null): string => area ?? 'work plane';

function wantedText({ wish, wanted, to }: Wish, units: Units): string {
  switch (wish) {
    case 'at_least_lx':
      return `at least ${lightText(wanted, units)}`;
    case 'at_most_lx':
      return `at most ${lightText(wanted, units)}`;
    case 'about_lx':
      return `about ${lightText(wanted, units)}`;
    case 'ratio':
      return `${roundedText(wanted)} times the ${areaName(to)}`;
  }
}

function hasText({ wish, has }: Wish, units: Units): string {
  if (has === null) return 'all of the light';
  return wish === 'ratio' ? `${roundedText(has)} times` : lightText(has, units);
}

function isMet({ off_by_fraction: off }: Wish): boolean {
  return off !== null && Math.abs(off) < k_as_wished;
}

function verdict(wish: Wish): string {
  const { off_by_fraction: off } = wish;
  if (isMet(wish)) return 'as wished';
  if (off === null) return 'too much';
  return `${percentText(Math.abs(off))} too ${off < 0 ? 'little' : 'much'}`;
}

function WishLine({ wish, units }: { wish: Wish; units: Units }) {
  return (
    <li>
      {areaName(wish.area)}: {wantedText(wish, units)}, has {hasText(wish, units)}:{' '}
      <span class={isMet(wish) ? 'gives' : 'lacks'}>
        {isMet(wish) ? '✓ ' : '✗ '}
        {verdict(wish)}
      </span>
    </li>
  );
}

function settingText({ setting, light_fraction }: { setting: number | null; light_fraction: number }): string {
  const light = `light ${percentText(light_fraction)}`;
  return setting === null ? light : `setting ${(100 * setting).toFixed(0)} %, ${light}`;
}

function MoodWishes({ units }: { units: Units }) {
  const wishing = (moodsNow.value ?? []).filter(({ wishes }) => wishes.length > 0);
  return (
    <div role="status">
      {wishing.length === 0 && (
        <p class="soft">{moodsNow.value === null ? 'Not computed yet.' : 'No mood of this job has wishes.'}</p>
      )}
      {wishing.map(({ name, wishes, circuits }) => (
        <div key={name} class="wishing">
          <h2>{name}</h2>
          <ul>
            {wishes.map((wish, i) => (
              <WishLine key={i} wish={wish} units={units} />
            ))}
          </ul>
          <p class="soft">
            Found for it: {circuits.map((circuit) => `${circuit.name} ${settingText(circuit)}`).join('; ')}.
          </p>
        </div>
      ))}
    </div>
  );
}

const k_new_mood = '';
const k_work_plane = '';

const draft = signal({ mood: k_new_mood, name: '', amount: '', area: k_work_plane });
const problem = signal('');

function wishChange(mood: string, units: Units): Change {
  const { amount, area } = draft.value;
  const about = `${amount.trim()} ${units === 'imperial' ? 'fc' : 'lx'}`;
  return { add: ['moods', mood, 'wish'], value: area === k_work_plane ? { about } : { about, area } };
}

async function addWish(units: Units): Promise<void> {
  const { mood, name, amount } = draft.value;
  const of = mood === k_new_mood ? name.trim() : mood;
  if (!of || !amount.trim()) {
    problem.value = of ? 'Say how much light.' : 'Give the mood a name first.';
    return;
  }
  problem.value = await change([wishChange(of, units)]);
  if (problem.value) return;
  draft.value = { ...draft.value, mood: of, name: '', amount: '' };
  say(`The mood “${of}” has one more wish.`);
}

interface LineProps {
  readonly label: string;
  readonly value: string;
  readonly onType: (text: string) => void;
  readonly isNumber?: boolean;
}

function Line({ label, value, onType, isNumber = false }: LineProps) {
  return (
    <label class="entry">
      {label}
      <input
        value={value}
        autocomplete="off"
        inputMode={isNumber ? 'decimal' : 'text'}
        aria-invalid={problem.value !== ''}
        aria-describedby="wish-problem"
        onInput={({ currentTarget }) => onType(currentTarget.value)}
      />
    </label>
  );
}

function Pick({
  label,
  value,
  choices,
  onPick,
}: {
  label: string;
  value: string;
  choices: readonly (readonly [string, string])[];
  onPick: (value: string) => void;
}) {
  return (
    <label class="entry">
      {label}
      <select value={value} onChange={({ currentTarget }) => onPick(currentTarget.value)}>
        {choices.map(([choice, name]) => (
          <option key={choice} value={choice}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}

function NewWish({ units }: { units: Units }) {
  const set = (next: Partial<typeof draft.value>): void => void (draft.value = { ...draft.value, ...next });
  const { mood, name, amount, area } = draft.value;
  const known = (room.value?.moods ?? [])
    .filter(({ levels }) => levels === null)
    .map((each) => [each.name, each.name] as const);
  const areas = (room.value?.task_areas ?? []).map((each) => [each.name, each.name] as const);
  const isKnown = known.some(([each]) => each === mood);
  return (
    <form
      class="new-wish"
      onSubmit={(event) => {
        event.preventDefault();
        void addWish(units);
      }}
    >
      <h2>One more wish</h2>
      <div class="fields">
        <Pick
          label="In the mood"
          value={isKnown ? mood : k_new_mood}
          choices={[...known, [k_new_mood, 'a new one']]}
          onPick={(picked) => set({ mood: picked })}
        />
        {!isKnown && <Line label="Its name" value={name} onType={(typed) => set({ mood: k_new_mood, name: typed })} />}
        <Line
          label={units === 'imperial' ? 'About how many fc (foot-candles)' : 'About how many lx (lux)'}
          value={amount}
          isNumber
          onType={(typed) => set({ amount: typed })}
        />
        <Pick
          label="On"
          value={area}
          choices={[[k_work_plane, 'the work plane'], ...areas]}
          onPick={(picked) => set({ area: picked })}
        />
      </div>
      <button type="submit">Add the wish</button>
      <span id="wish-problem" class="wrong entry-text" role="status">
        {problemText(problem.value)}
      </span>
    </form>
  );
}

export function Wishes() {
  const units = room.value?.units ?? 'metric';
  return (
    <Fold kind="see-part" title="Wishes: say what light you want, and the engine finds the dimming">
      <MoodWishes units={units} />
      {room.value?.circuits.some(({ name }) => name !== null) ? (
        <NewWish units={units} />
      ) : (
        <p class="soft">Wishes set circuits, and no can is on one: give the cans circuits in the plan first.</p>
      )}
    </Fold>
  );
}
