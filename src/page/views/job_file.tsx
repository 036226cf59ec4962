import { useRef, useState } from 'preact/hooks';
import type { Photometry } from '../engine/results';
import {
  dismiss,
  hasType,
  incomingProblem,
  isBeside,
  k_acceptable,
  type Offer,
  offers,
  takeAsType,
  takeFiles,
} from '../job/incoming_files';
import { jobFiles, jobText } from '../job/job_desk';
import { baseName } from '../job/missing_files';
import { EngineSays } from '../parts/engine_says';
import { FileButton } from '../parts/file_button';
import { roundedText } from '../parts/light_text';
import { say } from '../parts/said';
import { saveFile } from '../parts/save_file';
import { baseOfJob } from './sheets';

const k_toml = 'application/toml';
const k_any = 'application/octet-stream';

function JobText() {
  const area = useRef<HTMLTextAreaElement>(null);
  const [isOpen, setOpen] = useState(false);
  const [copied, setCopied] = useState('');
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(jobText.value);
      setCopied('Copied.');
    } catch {
      setOpen(true);
      setCopied('This browser lets pages copy nothing: the text is selected below, copy it from there.');
      requestAnimationFrame(() => area.current?.select());
    }
  };
  return (
    <>
      <p class="buttons">
        <button type="button" class="main" onClick={() => saveFile(`${baseOfJob()}.toml`, jobText.value, k_toml)}>
          Save job file
        </button>
        <button type="button" onClick={() => void copy()}>
          Copy as text
        </button>
      </p>
      <p role="status">{copied}</p>
      <details open={isOpen} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>The job as text</summary>
        <textarea ref={area} readOnly rows={14} spellcheck={false} aria-label="The job as text" value={jobText.value} />
      </details>
    </>
  );
}

/** The photometric files that the job has with it. */
function FilesBeside() {
  const names = Object.keys(jobFiles.value);
  if (names.length === 0) return null;
  const save = (path: string): void =>
    saveFile(baseName(path), jobFiles.value[path] ?? '', k_any);
  return (
    <details>
      <summary>Photometric files with the job ({names.length})</summary>
      <p class="soft">The job file names these: whoever opens it elsewhere needs them too.</p>
      <ul class="plain">
        {names.map((path) => (
          <li key={path}>
            <span>{path}</span>
            <button type="button" aria-label={`Save ${path}`} onClick={() => save(path)}>
              Save
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

const aboutLight = ({ light }: Photometry): string =>
  [
    `${roundedText(light.luminaire_lm)} lm`,
    light.power_w === null ? '' : `${roundedText(light.power_w)} W`,
    light.along_c0.beam_deg === null ? '' : `beam ${roundedText(light.along_c0.beam_deg)}°`,
  ]
    .filter(Boolean)
    .join(', ');

function TypeForm({ offer }: { offer: Offer }) {
  const [name, setName] = useState(offer.name.replace(/\.[^.]*$/, ''));
  const [wrong, setWrong] = useState('');
  const [hintId, wrongId] = [`hint of ${offer.name}`, `wrong of ${offer.name}`].map((id) => id.replaceAll(' ', '-'));
  const take = async (event: Event): Promise<void> => {
    event.preventDefault();
    const refusal = await takeAsType(offer, name);
    setWrong(refusal);
    if (!refusal) say(`The job has the type of can “${name}” now: give it to a can in the plan.`);
  };
  return (
    <form onSubmit={(event) => void take(event)}>
      <label>
        Name of the type of can
        <input
          value={name}
          required
          autocomplete="off"
          aria-describedby={`${hintId} ${wrongId}`}
          aria-invalid={wrong !== ''}
          onInput={({ currentTarget }) => setName(currentTarget.value)}
        />
      </label>
      <p class="soft" id={hintId}>
        {hasType(name) ? 'The job has this type: it gets this file, its hole and price stay. ' : ''}
        {isBeside(offer.name) ? 'A file of this name is with the job: it is replaced.' : ''}
      </p>
      <EngineSays id={wrongId} text={wrong} />
      <button type="submit" class="main">
        {hasType(name) ? 'Give it to this type' : 'Add this type of can'}
      </button>
    </form>
  );
}

function Offered({ offer }: { offer: Offer }) {
  const { name, found, refusal } = offer;
  return (
    <li class="card">
      <h3>{name}</h3>
      <EngineSays text={refusal} />
      {found && <p>{aboutLight(found)}</p>}
      {found?.warnings.map(({ what, hint }) => (
        <p key={what} class="lacks">
          ! {what}
          {hint && `: ${hint}`}
        </p>
      ))}
      {found && <TypeForm offer={offer} />}
      <button type="button" aria-label={`Leave it out: ${name}`} onClick={() => dismiss(offer)}>
        Leave it out
      </button>
    </li>
  );
}

/** The job as a file: out of the page, and into it. */
export function JobFile() {
  return (
    <section aria-labelledby="job-file">
      <h2 id="job-file">Job file</h2>
      <JobText />
      <FilesBeside />
      <h3>Open</h3>
      <p class="soft" id="open-files">
        A job (.toml) together with its photometric files (.ies, .ldt), or photometric files for this job. They may be
        dropped anywhere on the page, too. The job that is open now stays under “Job” at the top.
      </p>
      <FileButton label="Open files" accept={k_acceptable} multiple onFiles={(files) => void takeFiles(files)} />
      <EngineSays text={incomingProblem.value} />
      <ul class="cards">
        {offers.value.map((offer) => (
          <Offered key={offer.name} offer={offer} />
        ))}
      </ul>
    </section>
  );
}
