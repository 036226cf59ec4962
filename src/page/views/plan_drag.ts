// Moving things on the plan: by hand, with the light following roughly, and by keys in small steps.

import { signal } from '@preact/signals';
import { type Change, placed, Refused } from '../engine/commands';
import type { Can, PlacedCan, Point } from '../engine/results';
import { change, endPreview, engine, jobNow, preview, previewCan, room } from '../job/job_desk';
import { heldScale, notice, scale, told } from './plan_state';
import { pathOf, placedThing, type Thing } from './plan_things';

/** A wall of a rectangle. */
export interface Wall {
  readonly wall: 'south' | 'east' | 'north' | 'west';
}

export interface Move {
  readonly of: Thing | Wall;
  /** Where the hand is: of a thing its middle, of a wall any point of it. */
  readonly wished: Point;
  /** Where it will be; null where it can not be. */
  readonly at: Point | null;
  /** What the engine says of a can's place. */
  readonly placed: PlacedCan | null;
}

/** What is being moved. */
export const move = signal<Move | null>(null);

export const isWall = (of: Thing | Wall): of is Wall => 'wall' in of;

interface Asked {
  readonly wished: Point;
  readonly at: Point | null;
  readonly placed: PlacedCan | null;
  readonly changes: readonly Change[];
  /** Why there are no changes. */
  readonly why: string;
}

const refused = (wished: Point, why: string, placed: PlacedCan | null = null): Asked => ({
  wished,
  at: null,
  placed,
  changes: [],
  why,
});

/** Runs one at a time; of the places that come meanwhile only the newest is asked about. */
class Following {
  private newest: Point | null = null;
  private running: Promise<void> | null = null;
  last: Asked | null = null;

  constructor(private readonly ask: (wished: Point) => Promise<Asked>) {}

  follow(wished: Point): void {
    this.newest = wished;
    this.running ??= this.run().finally(() => (this.running = null));
  }

  async rest(): Promise<Asked | null> {
    while (this.running) await this.running;
    return this.last;
  }

  private async run(): Promise<void> {
    while (this.newest) {
      const wished = this.newest;
      this.newest = null;
      this.last = await this.ask(wished).catch((why: unknown) => {
        if (why instanceof Refused) return refused(wished, why.message);
        throw why;
      });
      if (move.value) move.value = { ...move.value, at: this.last.at, placed: this.last.placed };
      const isShown = this.last.placed !== null; // a can's light comes with its place
      if (!isShown && this.last.changes.length > 0) await preview(this.last.changes);
    }
  }
}

async function askedCan(can: Thing, wished: Point): Promise<Asked> {
  const placed = await previewCan(can.number, wished);
  if (!placed.place) return refused(wished, placed.text, placed);
  const at: Point = [placed.place.x_m, placed.place.y_m];
  return { wished, at, placed, changes: [{ move: pathOf(can), to_m: at }], why: '' };
}

const asked = (thing: Thing, wished: Point): Asked => ({
  wished,
  at: wished,
  placed: null,
  changes: [{ move: pathOf(thing), to_m: wished }],
  why: '',
});

const k_inch_m = 0.0254;

/** A length to the half inch or centimetre, as it is typed. */
const typedLength = (length_m: number): string =>
  room.value?.units === 'metric'
    ? `${Math.round(100 * length_m)} cm`
    : `${Math.round((2 * length_m) / k_inch_m) / 2} in`;

/** A wall goes outward or inward; the one across from it stays. */
function askedWall({ wall }: Wall, begun: Point, size_m: Point, wished: Point): Asked {
  const axis = wall === 'east' || wall === 'west' ? 0 : 1;
  const outward = wall === 'east' || wall === 'north' ? 1 : -1;
  const length_m = size_m[axis] + outward * (wished[axis] - begun[axis]);
  const value = typedLength(length_m);
  return {
    wished,
    at: wished,
    placed: null,
    changes: [{ set: ['room', axis === 0 ? 'width' : 'depth'], value }],
    why: '',
  };
}

function roomSize(): Point {
  const corners = room.value?.room.corners ?? [];
  const extent = (all: readonly number[]): number => Math.max(...all) - Math.min(...all);
  return [extent(corners.map((corner) => corner.x_m)), extent(corners.map((corner) => corner.y_m))];
}

let following: Following | null = null;

function hold(of: Thing | Wall, wished: Point, ask: (wished: Point) => Promise<Asked>): void {
  following = new Following(ask);
  notice.value = '';
  told.value = '';
  move.value = { of, wished, at: wished, placed: null };
}

/** Takes hold of something. Nothing moves before `dragTo`. */
export function beginDrag(of: Thing | Wall, wished: Point): void {
  if (isWall(of)) {
    const size_m = roomSize();
    heldScale.value = scale.value;
    hold(of, wished, async (place) => askedWall(of, wished, size_m, place));
  } else if (of.kind === 'can') {
    hold(of, wished, (place) => askedCan(of, place));
  } else {
    hold(of, wished, async (place) => asked(of, place));
  }
}

export function dragTo(wished: Point): void {
  if (!move.value || !following) return;
  move.value = { ...move.value, wished };
  following.follow(wished);
}

function letGo(): void {
  following = null;
  heldScale.value = null;
  move.value = null;
}

/** Makes the change, or tells why not and leaves the job as it was. */
export async function endDrag(): Promise<void> {
  const mine = following;
  if (!mine) return;
  following = null;
  const last = await mine.rest();
  letGo();
  if (!last) return;
  const why = last.why || (await change(last.changes));
  notice.value = why;
  if (why) await endPreview();
}

export async function giveUpDrag(): Promise<void> {
  const mine = following;
  if (!mine) return;
  letGo();
  await mine.rest().catch(() => null);
  await endPreview();
}

/** Moves a can to the nearest place where it fits, and tells how far that is and off what. */
export async function moveToFit({ number, x_m, y_m }: Can): Promise<void> {
  try {
    const { place, text } = await placed(engine, jobNow(), number, x_m, y_m);
    notice.value = place ? await change([{ move: ['cans', number - 1], to_m: [place.x_m, place.y_m] }]) : text;
    told.value = notice.value ? '' : `Can ${number}: ${text}`;
  } catch (why) {
    if (!(why instanceof Refused)) throw why;
    notice.value = why.message;
  }
}

const k_pause_ms = 600;
let pause = 0;

/** A small step; steps that follow each other quickly become one change. */
export function nudge(thing: Thing, [x, y]: Point): void {
  const now = move.value;
  const from = now && !isWall(now.of) ? now.wished : room.value && placedThing(room.value, thing)?.at;
  if (!from) return;
  if (!following) {
    if (now) return; // the last move is still being made
    hold(thing, from, async (place) => asked(thing, place));
  }
  dragTo([from[0] + x, from[1] + y]);
  window.clearTimeout(pause);
  pause = window.setTimeout(() => void endDrag(), k_pause_ms);
}

/** What a key does to the selected thing: half an inch or a centimetre, with Shift half a foot or a decimetre. */
export function stepOf(key: string, isLarge: boolean): Point | null {
  const isMetric = room.value?.units === 'metric';
  const step_m = isMetric ? (isLarge ? 0.1 : 0.01) : isLarge ? 6 * k_inch_m : k_inch_m / 2;
  const steps: Record<string, Point> = {
    ArrowUp: [0, step_m],
    ArrowDown: [0, -step_m],
    ArrowLeft: [-step_m, 0],
    ArrowRight: [step_m, 0],
  };
  return steps[key] ?? null;
}
