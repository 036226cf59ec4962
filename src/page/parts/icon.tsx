// Line drawings of 24 x 24, in the colour of the text beside them.

const k_paths = {
  plan: 'M3 4h18v16H3zM3 13h7M14 20v-5M8 8h.01M16 8h.01M16 12h.01',
  choose: 'M3 4h7v7H3zM14 4h7v7h-7zM3 15h7v5H3zM14 15h7v5h-7zM6.5 7.5h.01M16 6.5h.01M19 8.5h.01',
  see: 'M3 5l6 3v8l-6 3zM21 5l-6 3v8l6 3zM9 8h6M9 16h6',
  hand: 'M6 3h9l4 4v14H6zM15 3v4h4M9 12h7M9 16h5',
  undo: 'M8 5L4 9l4 4M4 9h10a5 5 0 0 1 0 10H8',
  redo: 'M16 5l4 4-4 4M20 9H10a5 5 0 0 0 0 10h6',
  job: 'M4 6h16M4 12h16M4 18h10',
  close: 'M6 6l12 12M18 6L6 18',
  add: 'M12 5v14M5 12h14',
  remove: 'M5 7h14M9 7V4h6v3M7 7l1 13h8l1-13',
  erase: 'M9 6h12v12H9l-6-6zM12 9.5l5 5M17 9.5l-5 5',
  tape: 'M3 8h18v8H3zM7 8v4M11 8v3M15 8v4M19 8v3',
  copy: 'M8 8h12v12H8zM16 8V4H4v12h4',
  up: 'M6 14l6-6 6 6',
  down: 'M6 10l6 6 6-6',
  left: 'M14 6l-6 6 6 6',
  right: 'M10 6l6 6-6 6',
  closer: 'M11 4a7 7 0 1 1 0 14a7 7 0 1 1 0-14zM16 16l5 5M8 11h6M11 8v6',
  wider: 'M11 4a7 7 0 1 1 0 14a7 7 0 1 1 0-14zM16 16l5 5M8 11h6',
  whole: 'M4 9V4h5M15 4h5v5M20 15v5h-5M9 20H4v-5',
} as const;

export type IconName = keyof typeof k_paths;

export function Icon({ name }: { name: IconName }) {
  return (
    <svg class="icon" viewBox="0 0 24 24" aria-hidden="true">
      <path d={k_paths[name]} />
    </svg>
  );
}
