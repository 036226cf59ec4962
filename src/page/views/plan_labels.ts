// Where labels are written on the plan, so that they can be read.

import type { Point } from '../engine/results';

/** An upright rectangle of the drawing, in pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Label {
  /** Whose it is; no other label has the same. */
  readonly key: string;
  readonly text: string;
  /** Of its letters. */
  readonly size_px: number;
  /** Where its middle may be, the best first. */
  readonly places: readonly Point[];
  /** What it keeps off where another of its places is free. */
  readonly shuns?: readonly Box[];
}

/** A thing with a name, and the rectangle around it. */
export interface Named {
  readonly key: string;
  readonly name: string;
  readonly box: Box;
}

export const k_name_px = 12;
const k_gap_px = 2;

// Of the size of the letters; fonts differ, these are on the large side.
const k_letter = 0.6;
const k_half_line = 0.65;

const isClear = (a: Box, b: Box): boolean =>
  a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;

export const squareAround = ([x, y]: Point, half: number): Box => ({
  left: x - half,
  right: x + half,
  top: y - half,
  bottom: y + half,
});

const halfWidth = (text: string, size_px: number): number => (text.length * k_letter * size_px) / 2;

function around([x, y]: Point, { text, size_px }: Label): Box {
  const half = halfWidth(text, size_px);
  return { left: x - half, right: x + half, top: y - k_half_line * size_px, bottom: y + k_half_line * size_px };
}

/**
 * The middle of each label by its key: the first of its places that is over nothing taken and over no label before it. A
 * label without such a place is not written: what it says is in its thing's panel.
 */
export function labelPlaces(labels: readonly Label[], taken: readonly Box[]): ReadonlyMap<string, Point> {
  const full = [...taken];
  const found = new Map<string, Point>();
  for (const label of labels) {
    const isOff = (boxes: readonly Box[]) => (place: Point) => boxes.every((box) => isClear(around(place, label), box));
    const free = label.places.filter(isOff(full));
    const at = free.find(isOff(label.shuns ?? [])) ?? free[0];
    if (!at) continue;
    full.push(around(at, label));
    found.set(label.key, at);
  }
  return found;
}

/** Inside of the thing: along its lower edge, the upper or halfway. */
function namePlaces({ name, box }: Named): readonly Point[] {
  const { left, right, top, bottom } = box;
  const edge = k_half_line * k_name_px + 1;
  if (right - left < 2 * halfWidth(name, k_name_px) || bottom - top < 2 * edge) return [];
  return [bottom - edge, top + edge, (top + bottom) / 2].map((y) => [(left + right) / 2, y]);
}

const isSameThing = (a: Named, b: Named): boolean => a.name === b.name && !isClear(a.box, b.box);

/** Names of things. A table that is furniture and a task area as well is one thing, and has its name once. */
export const nameLabels = (things: readonly Named[]): readonly Label[] =>
  things
    .filter((thing, i) => !things.slice(0, i).some((before) => isSameThing(before, thing)))
    .map((thing) => ({ key: thing.key, text: thing.name, size_px: k_name_px, places: namePlaces(thing) }));

/**
 * Beside a round mark.
 *
 * @param first where it goes by preference, the upper right or above
 */
export function labelBeside(
  { key, text, size_px }: Omit<Label, 'places'>,
  [x, y]: Point,
  radius_px: number,
  first: 'corner' | 'above',
): Label {
  const near = radius_px + k_gap_px; // a corner is nearer to a circle than its square is
  const dx = near + halfWidth(text, size_px);
  const dy = near + k_half_line * size_px;
  const corners: readonly Point[] = [[dx, -near], [-dx, -near], [dx, near], [-dx, near]];
  const sides: readonly Point[] = [[0, -dy], [0, dy], [dx, 0], [-dx, 0]];
  const offsets = first === 'corner' ? [...corners, ...sides] : [...sides, ...corners];
  return { key, text, size_px, places: offsets.map(([right, down]) => [x + right, y + down]) };
}
