import { before, befores, chooseBefore, k_befores, noteBefore } from '../job/earlier';
import { Chip } from './chip';
import { say } from './said';

/** What "before" means, and a button that notes the job as it is now. */
export function BeforeChoice() {
  const note = (): void => {
    noteBefore();
    say('Noted: change the job, and compare it with how it is now.');
  };
  return (
    <fieldset class="chips">
      <legend>“Before” is the job</legend>
      {befores.value.map((each) => (
        <Chip key={each} isPressed={each === before.value} onPress={() => chooseBefore(each)}>
          {k_befores[each]}
        </Chip>
      ))}
      <button type="button" onClick={note}>
        Note how it is now
      </button>
    </fieldset>
  );
}
