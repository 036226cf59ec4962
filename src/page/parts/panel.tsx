import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { Icon } from './icon';

interface PanelProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ComponentChildren;
}

/** Rises from the lower edge, within reach of a thumb; beside the plan where the screen is wide. Escape closes it. */
export function Panel({ title, onClose, children }: PanelProps) {
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    panel.current?.focus();
    return () => {
      if (before instanceof HTMLElement || before instanceof SVGElement) before.focus();
    };
  }, []);
  return (
    <section
      class="panel"
      ref={panel}
      tabIndex={-1}
      aria-label={title}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose();
      }}
    >
      <header>
        <h2>{title}</h2>
        <button type="button" aria-label={`Close: ${title}`} onClick={onClose}>
          <Icon name="close" />
        </button>
      </header>
      {children}
    </section>
  );
}
