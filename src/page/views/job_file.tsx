import { signal } from '@preact/signals';
import { useEffect, useRef, useState } from 'preact/hooks';
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

interface Saving {
  readonly name: string;
  readonly content: Uint8Array | string;
  readonly type: string;
}

const jobSaving = (): Saving => ({ name: `${baseOfJob()}.toml`, content: jobText.value, type: k_toml });

const besideSaving = (): readonly Saving[] =>
  Object.entries(jobFiles.value).map(([path, content]) => ({ name: baseName(path), content, type: k_any }));

const k_between_ms = 400; // some browsers save only the last of files that come at once

async function saveAll(files: readonly Saving[]): Promise<void> {
  for (const [index, { name, content, type }] of files.entries()) {
    if (index > 0) await new Promise((go) => setTimeout(go, k_between_ms));
    saveFile(name, content, type);
  }
}

/** What was just done to the file, in a sentence. */
const saved = signal('');

/** Saves files and says so. */
function SaveButton({ label, files, isMain }: { label: string; files: () => readonly Saving[]; isMain: boolean }) {
  const save = async (): Promise<void> => {
    const all = files();
    await saveAll(all);
    saved.value = `Saved with this browser’s downloads: ${all.map(({ name }) => name).join(', ')}.`;
  };
  return (
    <button type="button" class={isMain ? 'main' : undefined} onClick={() => void save()}>
      {label}
    </button>
  );
}

function JobText() {
  const area = useRef<HTMLTextAreaElement>(null);
  const [isOpen, setOpen] = useState(false);
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(jobText.value);
      saved.value = 'Copied.';
    } catch {
      setOpen(true);
      saved.value = 'This browser lets pages copy nothing: the text is selected below, copy it from there.';
      requestAnimationFrame(() => area.current?.select());
    }
  };
  useEffect(() => () => void (saved.value = ''), []);
  const beside = besideSaving();
  return (
    <>
      {beside.length > 0 && (
        <>
          <p id="files-beside">The light of its cans stands in files of their own. Whoever opens the job elsewhere needs them too:</p>
          <ul class="plain" aria-labelledby="files-beside">
            {beside.map(({ name }) => (
              <li key={name}>{name}</li>
            ))}
          </ul>
        </>
      )}
      <p class="buttons">
        {beside.length > 0 && (
          <SaveButton
            label={`Save job and its ${beside.length === 1 ? 'file' : `${beside.length} files`}`}
            files={() => [jobSaving(), ...besideSaving()]}
            isMain
          />
        )}
        <SaveButton
          label={beside.length > 0 ? 'Save job file alone' : 'Save job file'}
          files={() => [jobSaving()]}
          isMain={beside.length === 0}
        />
        <button type="button" onClick={() => void copy()}>
          Copy as text
        </button>
      </p>
      <p role="status" class="good">
        {saved.value}
      </p>
      <details open={isOpen} onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>The job as text</summary>
        <textarea ref={area} readOnly rows={14} spellcheck={false} aria-label="The job as text" value={jobText.value} />
      </details>
    </>
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
  const card = useRef<HTMLLIElement>(null);
  useEffect(() => card.current?.scrollIntoView({ block: 'nearest' }), []);
  return (
    <li class="card" ref={card}>
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
