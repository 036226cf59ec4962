import type { ComponentChildren } from 'preact';

interface ChipProps {
  readonly isPressed: boolean;
  readonly onPress: () => void;
  readonly children: ComponentChildren;
}

/** A button that is pressed or not, which a tick tells as well as its colour. */
export function Chip({ isPressed, onPress, children }: ChipProps) {
  return (
    <button type="button" aria-pressed={isPressed} onClick={onPress}>
      {isPressed && <span aria-hidden="true">✓ </span>}
      {children}
    </button>
  );
}
