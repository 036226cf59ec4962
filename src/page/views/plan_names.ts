// Where names are written on the plan, so that they can be read.

import type { Point } from '../engine/results';

/** An upright rectangle of the drawing, in pixels. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Named extends Box {
  readonly name: string;
}

const k_letter_px = 6.6;
const k_half_line_px = 8;

const isClear = (a: Box, b: Box): boolean =>
  a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;

/** The room that a name takes around its middle. */
function around([x, y]: Point, name: string): Box {
  const half = (name.length * k_letter_px) / 2;
  return { left: x - half, right: x + half, top: y - k_half_line_px, bottom: y + k_half_line_px };
}

/**
 * The middle of each name: inside its thing, along the lower edge, the upper or halfway, wherever it is over nothing that is
 * taken and over no other name. Null where there is no such place: the name is in the thing's panel.
 */
export function namePlaces(things: readonly Named[], taken: readonly Box[]): readonly (Point | null)[] {
  const full = [...taken];
  return things.map(({ name, left, top, right, bottom }) => {
    const x = (left + right) / 2;
    const heights = [bottom - k_half_line_px - 1, top + k_half_line_px + 1, (top + bottom) / 2];
    const at = heights
      .map((y): Point => [x, y])
      .find((place) => {
        const box = around(place, name);
        const isInside = box.left >= left && box.right <= right && box.top >= top && box.bottom <= bottom;
        return isInside && full.every((other) => isClear(box, other));
      });
    if (at) full.push(around(at, name));
    return at ?? null;
  });
}
