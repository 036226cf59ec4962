import { signal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { isBusy, keepingProblem, mayRedo, mayUndo, problem, redo, room, undo } from './job/job_desk';
import { Icon, type IconName } from './parts/icon';
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

function Top() {
  return (
    <header class="top">
      <h1>{room.value?.room.name ?? 'evenlit'}</h1>
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
  const Shown = k_views[shownView.value].show;
  return (
    <>
      <Top />
      {keepingProblem.value && (
        <p class="notice" role="alert">
          {keepingProblem.value}
        </p>
      )}
      {problem.value && (
        <pre class="notice wrong" role="alert">
          {problem.value}
        </pre>
      )}
      <main>
        <Shown />
      </main>
      <Ways />
      {isMenuOpen.value && <JobMenu onClose={() => (isMenuOpen.value = false)} />}
    </>
  );
}
