// The job beside itself: as it was earlier, or with other numbers of cans, all shown by one exposure.

import { signal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { textBefore } from '../job/earlier';
import { jobText } from '../job/job_desk';
import { BeforeChoice } from '../parts/before_choice';
import { Chip } from '../parts/chip';
import { CountChips } from '../parts/count_chips';
import { Fold } from '../parts/fold';
import { alternatives, compareCounts, compareWithBefore, isStale, running, seen } from './see_runs';
import { isSideBySide, shownLabel } from './see_state';

const k_counts = [4, 6, 8];

const chosen = signal<ReadonlySet<number>>(new Set(k_counts));

/** Which of them is shown. */
export function ShownChoice() {
  const shown = useRef<HTMLFieldSetElement>(null);
  const count = alternatives.value.length;
  useEffect(() => {
    if (count === 1) shown.current?.scrollIntoView({ block: 'nearest' }); // they are asked for farther down
  }, [count]);
  if (count === 0) return null;
  const known = alternatives.value.some(({ label }) => label === shownLabel.value);
  const button = (label: string, words: string, isPressed: boolean) => (
    <Chip key={label} isPressed={isPressed} onPress={() => (shownLabel.value = label)}>
      {words}
    </Chip>
  );
  const about = alternatives.value.find(({ label }) => label === shownLabel.value)?.about;
  return (
    <fieldset class="chips see-shown" ref={shown}>
      <legend>Shown, all as one camera setting has them</legend>
      {button('', 'As it is now', !known)}
      {alternatives.value.map(({ label }) => button(label, label, label === shownLabel.value))}
      <Chip isPressed={isSideBySide.value} onPress={() => (isSideBySide.value = !isSideBySide.value)}>
        Side by side
      </Chip>
      {about && <span class="soft see-about">{about}</span>}
    </fieldset>
  );
}

export function Compare() {
  const isHeld = running.value !== '' || seen.value === null || isStale.value;
  const isUnchanged = textBefore.value === jobText.value;
  const counts = [...chosen.value].sort((a, b) => a - b);
  return (
    <Fold kind="see-part" title="Compare pictures: before and after, numbers of cans">
      <BeforeChoice />
      <p class="run">
        <button type="button" disabled={isHeld || isUnchanged} onClick={() => void compareWithBefore()}>
          Before and after
        </button>
        {isUnchanged && <span>Nothing is changed since.</span>}
      </p>
      <CountChips
        label="The best usual layout of each number of cans"
        offered={k_counts}
        chosen={chosen.value}
        onChange={(next) => (chosen.value = next)}
      />
      <p class="run">
        <button type="button" disabled={isHeld || counts.length === 0} onClick={() => void compareCounts(counts)}>
          Show these numbers
        </button>
        <span>Each takes about as long as the room itself.</span>
      </p>
    </Fold>
  );
}
