import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { versionOf } from '../engine/commands';
import { demoJobs, type EmbeddedJob, jobOfPage } from '../job/embedded';
import { engine, forget, jobBefore, jobName, open, openEmbedded, rename } from '../job/job_desk';
import { Choice } from '../parts/choice';
import { Panel } from '../parts/panel';
import { chooseTheme, forgetTheme, k_themes, theme } from '../parts/theme';
import { NewRoom } from './new_room';

/** What a job file says of itself in its first comment. */
const aboutOf = ({ text }: EmbeddedJob): string => /^#\s*(.*)/.exec(text)?.[1] ?? '';

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

function Openers({ onClose }: { onClose: () => void }) {
  const own = jobOfPage();
  const before = jobBefore.value;
  const then = (opened: Promise<void>): Promise<void> => opened.then(onClose);
  return (
    <>
      <ul class="sheets">
        {before && (
          <Opener label={`Back to ${before.name}`} about="the job that was open before" onOpen={() => then(open(before))} />
        )}
        {own && <Opener label={`${own.name} as it came`} about="the job of this page" onOpen={() => then(openEmbedded(own))} />}
      </ul>
      <Part title="Rooms to try">
        <ul class="sheets">
          {demoJobs().map((job) => (
            <Opener key={job.name} label={job.name} about={aboutOf(job)} onOpen={() => then(openEmbedded(job))} />
          ))}
        </ul>
      </Part>
    </>
  );
}

function Part({ title, children }: { title: string; children: ComponentChildren }) {
  return (
    <details>
      <summary>{title}</summary>
      {children}
    </details>
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
        <Part title="New room">
          <NewRoom onDone={onClose} />
        </Part>
        <Choice legend="Light and dark" choices={k_themes} chosen={theme.value} onChoose={chooseTheme} />
        <h3>Nothing leaves this device</h3>
        <p>
          The page computes by itself and sends nothing. So that you can go on after a break, this browser keeps the open job,
          the one before it, their steps to undo and their photometric files in its own database, and your choice of light or
          dark beside it.
        </p>
        <Forget />
        <Version />
      </div>
    </Panel>
  );
}
