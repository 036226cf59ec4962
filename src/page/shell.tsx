import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { offers, incomingProblem, takeFiles } from './job/incoming_files';
import { isBusy, jobName, keepingProblem, keepingRemark, mayRedo, mayUndo, problem, redo, room, undo } from './job/job_desk';
import { EngineSays } from './parts/engine_says';
import { Icon, type IconName } from './parts/icon';
import { MissingFiles } from './parts/missing_files';
import { said, say } from './parts/said';
import { Choose } from './views/choose';
import { HandOver } from './views/hand_over';
import { JobMenu } from './views/job_menu';
import { Plan } from './views/plan';
import { See } from './views/see';

const k_views = {
  plan: { label: 'Plan', icon: 'plan', show: Plan },
  choose: { label: 'Choose', icon: 'choose', show: Choose },
  see: { label: 'See', icon: 'see', show: See },
  hand: { label: 'Hand over', icon: 'hand', show: HandOver },
} as const satisfies Record<string, { label: string; icon: IconName; show: () => ComponentChildren }>;

type View = keyof typeof k_views;

export const shownView = signal<View>('plan');
const isMenuOpen = signal(false);

/** Undo and redo by the keys that people know, but not while they type. */
function useKeys(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') return;
      if (event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement) return;
      event.preventDefault();
      void (event.shiftKey ? redo() : undo());
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
}

const isDropNear = signal(false);

/** Files may be dropped anywhere. */
function useDroppedFiles(): void {
  useEffect(() => {
    const onOver = (event: DragEvent): void => {
      if (!event.dataTransfer?.types.includes('Files')) return;
      event.preventDefault();
      isDropNear.value = true;
    };
    const onLeave = (event: DragEvent): void => {
      if (event.relatedTarget === null) isDropNear.value = false;
    };
    const onDrop = async (event: DragEvent): Promise<void> => {
      isDropNear.value = false;
      const files = [...(event.dataTransfer?.files ?? [])];
      if (files.length === 0) return;
      event.preventDefault();
      await takeFiles(files);
      if (offers.value.length > 0 || incomingProblem.value) shownView.value = 'hand';
    };
    addEventListener('dragover', onOver);
    addEventListener('dragleave', onLeave);
    addEventListener('drop', onDrop);
    return () => {
      removeEventListener('dragover', onOver);
      removeEventListener('dragleave', onLeave);
      removeEventListener('drop', onDrop);
    };
  }, []);
}

/** A message that the user may put away. */
function Told({ kind, text, onClose }: { kind: 'said' | 'told'; text: string; onClose: () => void }) {
  return (
    <div role="status">
      {text && (
        <p class={`notice ${kind}`}>
          {text}
          <button type="button" aria-label="Put this message away" onClick={onClose}>
            <Icon name="close" />
          </button>
        </p>
      )}
    </div>
  );
}

function Notices() {
  return (
    <div class="notices">
      <Told kind="said" text={said.value} onClose={() => say('')} />
      <Told kind="told" text={keepingRemark.value} onClose={() => (keepingRemark.value = '')} />
      {keepingProblem.value && (
        <p class="notice" role="alert">
          {keepingProblem.value}
        </p>
      )}
      {problem.value && (
        <div class="notice">
          <MissingFiles />
          <EngineSays text={problem.value} />
        </div>
      )}
    </div>
  );
}

function Top() {
  return (
    <header class="top">
      <h1>{room.value?.room.name ?? (jobName.value || 'evenlit')}</h1>
      <span class="busy" role="status" aria-live="polite">
        {isBusy.value ? 'Computing …' : ''}
      </span>
      <button type="button" aria-label="Undo" disabled={!mayUndo.value} onClick={() => void undo()}>
        <Icon name="undo" />
      </button>
      <button type="button" aria-label="Redo" disabled={!mayRedo.value} onClick={() => void redo()}>
        <Icon name="redo" />
      </button>
      <button
        type="button"
        aria-label="Job: open, save, settings"
        aria-expanded={isMenuOpen.value}
        onClick={() => (isMenuOpen.value = !isMenuOpen.value)}
      >
        <Icon name="job" />
      </button>
    </header>
  );
}

function Ways() {
  return (
    <nav class="ways" aria-label="Views">
      {(Object.keys(k_views) as View[]).map((view) => (
        <button
          key={view}
          type="button"
          aria-current={shownView.value === view ? 'page' : undefined}
          onClick={() => (shownView.value = view)}
        >
          <Icon name={k_views[view].icon} />
          {k_views[view].label}
        </button>
      ))}
    </nav>
  );
}

export function Shell() {
  useKeys();
  useDroppedFiles();
  const Shown = k_views[shownView.value].show;
  return (
    <>
      <Top />
      <Notices />
      <main key={shownView.value}>
        <Shown />
      </main>
      <Ways />
      {isDropNear.value && <p class="drop">Drop a job (.toml) and its photometric files (.ies, .ldt) here.</p>}
      {isMenuOpen.value && <JobMenu onClose={() => (isMenuOpen.value = false)} />}
    </>
  );
}
