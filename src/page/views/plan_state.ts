// What of the plan is looked at and worked on. The job itself is on the job desk.

import { batch, computed, signal } from '@preact/signals';
import type { Change } from '../engine/commands';
import type { Point } from '../engine/results';
import { change, light, room } from '../job/job_desk';
import { boundsOf, fitted, type Scale } from './plan_scale';
import { placedThing, type Thing } from './plan_things';

export type Work = 'room' | 'joists' | 'add' | Thing | null;

/** What was last opened; it may be gone since. */
const opened = signal<Work>(null);

/** What the panel edits. */
export const work = computed<Work>(() => {
  const now = opened.value;
  if (typeof now !== 'object' || now === null) return now;
  return room.value && placedThing(room.value, now) ? now : null;
});

/** Why something was not done. */
export const notice = signal('');

/** What was done, where that is more than was asked for. */
export const told = signal('');

/** Where the light is read. */
export const readAt = signal<Point | null>(null);

/** The drawing's size. */
export const size_px = signal<Point>([0, 0]);

const k_margin_px = 28;

/** By hand; null: the whole room is fitted into the drawing. */
export const zoomedScale = signal<Scale | null>(null);

/** While a wall is dragged the drawing stays where it is. */
export const heldScale = signal<Scale | null>(null);

const fittedScale = computed<Scale>(() => {
  const corners = room.value?.room.corners ?? [];
  if (corners.length === 0) return { px_per_m: 1, left_px: 0, top_px: 0 };
  return fitted(boundsOf(corners), ...size_px.value, k_margin_px);
});

export const scale = computed<Scale>(() => heldScale.value ?? zoomedScale.value ?? fittedScale.value);

export const selectedThing = computed<Thing | null>(() => (typeof work.value === 'object' ? work.value : null));

/** Opens a panel, or none. */
export function begin(next: Work): void {
  batch(() => {
    opened.value = next;
    notice.value = '';
    told.value = '';
  });
}

/** Makes changes at the press of a button; what is refused is told over the plan. */
export async function make(changes: readonly Change[]): Promise<void> {
  notice.value = await change(changes);
}

interface Reading {
  readonly at: Point;
  readonly lx: number;
  readonly error_lx: number;
}

/** The light at the counted point that is nearest to a place. */
function readingNear([x, y]: Point): Reading | null {
  const grid = light.value?.light.grid;
  if (!grid || grid.x_m.length === 0) return null;
  const distances = grid.x_m.map((x_m, i) => Math.hypot(x_m - x, (grid.y_m[i] ?? 0) - y));
  const nearest = distances.indexOf(Math.min(...distances));
  return {
    at: [grid.x_m[nearest] ?? 0, grid.y_m[nearest] ?? 0],
    lx: grid.illuminance_lx[nearest] ?? 0,
    error_lx: grid.error_lx[nearest] ?? 0,
  };
}

export const reading = computed<Reading | null>(() => (readAt.value ? readingNear(readAt.value) : null));

/** Where something new goes: where the light is read, or near the room's middle, but inside of it. */
export function placeForNew(): Point {
  if (readAt.value) return readAt.value;
  const { low, high } = boundsOf(room.value?.room.corners ?? []);
  const middle: Point = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  return readingNear(middle)?.at ?? middle;
}
