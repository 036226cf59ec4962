import { useEffect, useState } from 'preact/hooks';
import { versionOf } from '../engine/commands';
import { demoJobs, type EmbeddedJob, jobOfPage } from '../job/embedded';
import { engine, forget, jobName, lookForOthers, openEmbedded, otherJobs, removeKept, rename, reopen } from '../job/job_desk';
import type { KeptJob } from '../job/kept';
import { Choice } from '../parts/choice';
import { Fold } from '../parts/fold';
import { Icon } from '../parts/icon';
import { Panel } from '../parts/panel';
import { chooseTheme, forgetTheme, k_themes, theme } from '../parts/theme';
import { NewRoom } from './new_room';
import { withoutEnding } from './sheets';

/** What a job file says of itself in the first sentence of its first comment. */
function aboutOf({ text }: EmbeddedJob): string {
  const comment = (/^(?:#.*\n)+/.exec(text)?.[0] ?? '').replace(/^#[ \t]*/gm, '').replaceAll('\n', ' ');
  return /^.*?\.(?= |$)/.exec(comment)?.[0] ?? comment.trim();
}

interface OpenerProps {
  readonly label: string;
  readonly about: string;
  readonly onOpen: () => Promise<void>;
}

function Opener({ label, about, onOpen }: OpenerProps) {
  return (
    <li>
      <button type="button" class="sheet-button" onClick={() => void onOpen()}>
        <strong>{label}</strong>
        <span class="soft">{about}</span>
      </button>
    </li>
  );
}

const timeText = (at_ms: number): string =>
  at_ms === 0 ? 'earlier' : new Date(at_ms).toLocaleString([], { dateStyle: 'medium', timeStyle: 'short' });

/** A job that the device keeps; removing it asks once more. */
function Kept({ job, onOpen }: { job: KeptJob; onOpen: () => Promise<void> }) {
  const [isAsked, setAsked] = useState(false);
  const name = withoutEnding(job.name);
  return (
    <li class="kept">
      <button type="button" class="sheet-button" onClick={() => void onOpen()}>
        <strong>{name}</strong>
        <span class="soft">{timeText(job.at_ms)}</span>
      </button>
      {isAsked ? (
        <>
          <button type="button" class="wrong" aria-label={`Yes, remove ${name} for good`} onClick={() => void removeKept(job)}>
            Yes, remove it for good
          </button>
          <button type="button" aria-label={`No, keep ${name}`} onClick={() => setAsked(false)}>
            No, keep it
          </button>
        </>
      ) : (
        <button type="button" aria-label={`Remove ${name}`} title="Remove" onClick={() => setAsked(true)}>
          <Icon name="remove" />
        </button>
      )}
    </li>
  );
}

/** The jobs that were open here before, and in other windows. */
function KeptJobs({ onOpen }: { onOpen: (job: KeptJob) => Promise<void> }) {
  useEffect(() => void lookForOthers(), []);
  if (otherJobs.value.length === 0) return null;
  return (
    <section aria-labelledby="kept-jobs">
      <h3 id="kept-jobs">Your last jobs</h3>
      <ul class="sheets">
        {otherJobs.value.map((job) => (
          <Kept key={job.id} job={job} onOpen={() => onOpen(job)} />
        ))}
      </ul>
    </section>
  );
}

function Openers({ onClose }: { onClose: () => void }) {
  const own = jobOfPage();
  const then = (opened: Promise<void>): Promise<void> => opened.then(onClose);
  return (
    <>
      <KeptJobs onOpen={(job) => then(reopen(job))} />
      <ul class="sheets">
        {own && <Opener label={`${own.name} as it came`} about="the job of this page" onOpen={() => then(openEmbedded(own))} />}
      </ul>
      <Fold title="Rooms to try">
        <ul class="sheets">
          {demoJobs().map((job) => (
            <Opener key={job.name} label={job.name} about={aboutOf(job)} onOpen={() => then(openEmbedded(job))} />
          ))}
        </ul>
      </Fold>
    </>
  );
}

/** Forgetting asks once more. */
function Forget() {
  const [state, setState] = useState<'kept' | 'asked' | 'forgotten' | 'failed'>('kept');
  const doIt = async (): Promise<void> => {
    forgetTheme();
    await forget().then(
      () => setState('forgotten'),
      () => setState('failed'),
    );
  };
  return (
    <>
      {state === 'asked' ? (
        <p class="buttons">
          <button type="button" onClick={() => void doIt()}>
            Yes, forget it all
          </button>
          <button type="button" onClick={() => setState('kept')}>
            No, keep it
          </button>
        </p>
      ) : (
        <button type="button" onClick={() => setState('asked')}>
          Forget everything kept here
        </button>
      )}
      <p role="status">
        {state === 'asked' && 'What is not saved as a file will be gone when you leave the page.'}
        {state === 'forgotten' && 'Forgotten. The job stays open until you leave the page; a change keeps it again.'}
        {state === 'failed' && 'This browser does not let the page forget: clear this page’s data in its settings.'}
      </p>
    </>
  );
}

function Version() {
  const [version, setVersion] = useState('');
  useEffect(() => {
    versionOf(engine).then(setVersion, () => setVersion(''));
  }, []);
  return <p class="soft">{version}</p>;
}

export function JobMenu({ onClose }: { onClose: () => void }) {
  return (
    <Panel title="Job" onClose={onClose}>
      <div class="job-menu">
        <label class="field">
          Name of this job’s file
          <input
            autocomplete="off"
            value={jobName.value}
            onChange={({ currentTarget }) => rename(currentTarget.value)}
          />
        </label>
        <p class="soft">To open a file, or to save this job: “Hand over”, or drop files on the page.</p>
        <Openers onClose={onClose} />
        <Fold title="New room">
          <NewRoom onDone={onClose} />
        </Fold>
        <Choice legend="Light and dark" choices={k_themes} chosen={theme.value} onChoose={chooseTheme} />
        <h3>Nothing leaves this device</h3>
        <p>
          The page computes by itself and sends nothing. So that you can go on after a break, this browser keeps your last
          sixteen jobs, their steps to undo and their photometric files in its own database, and your choice of light or dark
          beside it. A browser may clear what it keeps: save as a file what must last.
        </p>
        <Forget />
        <Version />
      </div>
    </Panel>
  );
}
