import type { ComponentChildren } from 'preact';

interface FoldProps {
  readonly title: string;
  readonly kind?: string;
  readonly children: ComponentChildren;
}

/** What is shown when its title is pressed, and then as far as there is room for it. */
export function Fold({ title, kind, children }: FoldProps) {
  return (
    <details
      class={kind}
      onToggle={({ currentTarget }) => {
        if (currentTarget.open) currentTarget.scrollIntoView({ block: 'nearest' });
      }}
    >
      <summary>{title}</summary>
      {children}
    </details>
  );
}
