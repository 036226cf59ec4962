import { useEffect, useRef } from 'preact/hooks';
import { room } from '../job/job_desk';
import { EngineSays } from '../parts/engine_says';
import { JobFile } from './job_file';
import { SheetShown } from './sheet_shown';
import { k_sheets, lastSheet, make, making, sheetProblem, type SheetName, shownSheet, stopMaking } from './sheets';

const k_names = Object.keys(k_sheets) as SheetName[];

function SheetRow({ name }: { name: SheetName }) {
  const { label, about, isOfWiring } = k_sheets[name];
  const hasNoSwitch = isOfWiring && room.value?.switches.length === 0;
  const now = making.value;
  const wrong = sheetProblem.value;
  const button = useRef<HTMLButtonElement>(null);
  useEffect(() => {
    if (lastSheet.peek() !== name) return;
    lastSheet.value = null;
    button.current?.focus();
  }, [name]);
  return (
    <li>
      <button
        ref={button}
        type="button"
        class="sheet-button"
        disabled={now !== null || room.value === null || hasNoSwitch}
        onClick={() => void make(name)}
      >
        <strong>{label}</strong>
        <span class="soft">{about}</span>
        {hasNoSwitch && <span>There is no switch in this room yet: cables begin at one.</span>}
      </button>
      {now?.name === name && (
        <p class="run">
          <button type="button" onClick={stopMaking}>
            Stop
          </button>
          <span role="status">Making it … {now.progress}</span>
        </p>
      )}
      <EngineSays text={wrong?.name === name ? wrong.text : ''} />
    </li>
  );
}

/** What leaves the page: sheets to read and print, the job as a file. */
export function HandOver() {
  if (shownSheet.value) return <SheetShown sheet={shownSheet.value} />;
  return (
    <div class="hand-over">
      <section aria-labelledby="sheets">
        <h2 id="sheets">Sheets</h2>
        <ul class="sheets">
          {k_names.map((name) => (
            <SheetRow key={name} name={name} />
          ))}
        </ul>
      </section>
      <JobFile />
    </div>
  );
}
