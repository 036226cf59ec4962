// What fingers, pens and mice do on the plan.

import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Point } from '../engine/results';
import { room } from '../job/job_desk';
import { beginDrag, dragTo, endDrag, giveUpDrag, move, type Wall } from './plan_drag';
import { onPlan, shifted, zoomed } from './plan_scale';
import { begin, readAt, scale, selectedThing, work, zoomedScale } from './plan_state';
import { isKind, isSame, placedThing, type Thing } from './plan_things';

const k_slack_px = 6;
const k_largest_px_per_m = 2000;
const k_smallest_px_per_m = 5;

/** What is under a finger. */
interface Grip {
  readonly pointer: number;
  readonly at: Point;
  readonly things: readonly Thing[];
  /** Of them the one that can be dragged. */
  readonly thing: Thing | null;
  readonly wall: Wall | null;
  /** From the finger to the middle of the thing. */
  readonly offset_m: Point;
}

const k_walls: readonly Wall['wall'][] = ['south', 'east', 'north', 'west'];

function wallOf(element: Element | null): Wall | null {
  const name = element?.closest<SVGElement>('[data-wall]')?.dataset.wall;
  const wall = k_walls.find((each) => each === name);
  return wall ? { wall } : null;
}

function thingOf(element: Element | null): Thing | null {
  const data = element?.closest<SVGElement>('[data-kind]')?.dataset;
  return isKind(data?.kind) ? { kind: data.kind, number: Number(data.number) } : null;
}

const k_small: ReadonlySet<Thing['kind']> = new Set(['can', 'seat', 'point', 'switch']);

/** What lies under a finger, which is broader than much of it: first what is small, the nearest before all. */
function thingsUnder(event: MouseEvent, finger: Point): readonly Thing[] {
  const things: Thing[] = [];
  for (const element of document.elementsFromPoint(event.clientX, event.clientY)) {
    const thing = thingOf(element);
    if (thing && !things.some((each) => isSame(each, thing))) things.push(thing);
  }
  const distance = (thing: Thing): number => {
    const at = k_small.has(thing.kind) && room.value ? placedThing(room.value, thing)?.at : undefined;
    return at ? Math.hypot(at[0] - finger[0], at[1] - finger[1]) : Infinity;
  };
  const isNearer = (a: Thing, b: Thing): number => (distance(a) < distance(b) ? -1 : distance(a) > distance(b) ? 1 : 0);
  return things.sort(isNearer);
}

/** Where things lie over each other, tapping again comes to the next below. */
function tapped(things: readonly Thing[]): Thing | null {
  const selected = things.findIndex((each) => isSame(each, selectedThing.value));
  return things[(selected + 1) % things.length] ?? null;
}

/** Cans can be dragged at once, other things when they are selected: fingers that only scroll move no furniture. */
const mayDrag = (thing: Thing): boolean => thing.kind === 'can' || isSame(selectedThing.value, thing);

export function zoomBy(factor: number, at: Point): void {
  const next = zoomed(scale.value, factor, at);
  if (next.px_per_m < k_smallest_px_per_m || next.px_per_m > k_largest_px_per_m) return;
  zoomedScale.value = next;
}

/** Two fingers: their distance zooms, their middle shifts. */
function pinch(before: readonly [Point, Point], after: readonly [Point, Point]): void {
  const middle = ([a, b]: readonly [Point, Point]): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const distance = ([a, b]: readonly [Point, Point]): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
  const [from, to] = [middle(before), middle(after)];
  zoomedScale.value = shifted(scale.value, [to[0] - from[0], to[1] - from[1]]);
  if (distance(before) > 0) zoomBy(distance(after) / distance(before), to);
}

export function useHands(svg: RefObject<SVGSVGElement | null>) {
  const fingers = useRef(new Map<number, Point>());
  const grip = useRef<Grip | null>(null);

  const place = (event: MouseEvent): Point => {
    const box = svg.current?.getBoundingClientRect();
    return [event.clientX - (box?.left ?? 0), event.clientY - (box?.top ?? 0)];
  };

  useEffect(() => {
    const onWheel = (event: WheelEvent): void => {
      if (!event.ctrlKey && !event.metaKey) return; // the page scrolls
      event.preventDefault();
      zoomBy(Math.exp(-event.deltaY / 300), place(event));
    };
    // What a finger takes hold of, the page must not scroll away. Browsers mind `touch-action` on the whole drawing alone.
    const onTouch = (event: TouchEvent): void => {
      const target = event.target instanceof Element ? event.target : null;
      const thing = thingOf(target);
      const isHeld = wallOf(target) !== null || (thing !== null && mayDrag(thing));
      if (isHeld || event.touches.length > 1 || zoomedScale.value) event.preventDefault();
    };
    // The mouse's events, which browsers make up after a touch, would hit what a tap has just moved under the finger. The
    // field that somebody typed in is left as a mouse would leave it.
    const onLift = (event: TouchEvent): void => {
      if (event.cancelable) event.preventDefault();
      if (document.activeElement instanceof HTMLInputElement) document.activeElement.blur();
    };
    svg.current?.addEventListener('touchstart', onTouch, { passive: false });
    svg.current?.addEventListener('touchend', onLift, { passive: false });
    svg.current?.addEventListener('wheel', onWheel, { passive: false });
    const onKey = (event: KeyboardEvent): void => {
      if (event.key === 'Escape' && move.value) void giveUpDrag();
    };
    addEventListener('keydown', onKey);
    return () => {
      svg.current?.removeEventListener('touchstart', onTouch);
      svg.current?.removeEventListener('touchend', onLift);
      svg.current?.removeEventListener('wheel', onWheel);
      removeEventListener('keydown', onKey);
    };
  }, []);

  const onPointerDown = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    const at = place(event);
    fingers.current.set(event.pointerId, at);
    if (fingers.current.size > 1) {
      grip.current = null;
      void giveUpDrag();
      return;
    }
    if (move.value) return void endDrag(); // steps by keys, which wait for more
    const target = event.target instanceof Element ? event.target : null;
    const finger = onPlan(scale.value, at);
    const things = thingsUnder(event, finger);
    const wall = wallOf(target);
    const thing = wall ? null : (things.find(mayDrag) ?? null);
    const middle = thing && room.value && placedThing(room.value, thing)?.at;
    grip.current = {
      pointer: event.pointerId,
      at,
      things,
      thing,
      wall,
      offset_m: middle ? [middle[0] - finger[0], middle[1] - finger[1]] : [0, 0],
    };
  };

  const drag = (held: Grip, at: Point): void => {
    const finger = onPlan(scale.value, at);
    const wished: Point = [finger[0] + held.offset_m[0], finger[1] + held.offset_m[1]];
    if (move.value) return dragTo(wished);
    if (Math.hypot(at[0] - held.at[0], at[1] - held.at[1]) < k_slack_px) return;
    svg.current?.setPointerCapture(held.pointer);
    if (held.wall) beginDrag(held.wall, onPlan(scale.value, held.at));
    else if (held.thing) beginDrag(held.thing, wished);
    if (held.thing && work.value !== null) begin(held.thing);
    dragTo(wished);
  };

  const onPointerMove = (event: PointerEvent): void => {
    const before = fingers.current.get(event.pointerId);
    if (!before) return;
    const at = place(event);
    fingers.current.set(event.pointerId, at);
    const other = [...fingers.current].find(([pointer]) => pointer !== event.pointerId)?.[1];
    if (other) return pinch([before, other], [at, other]);
    const held = grip.current;
    if (held?.pointer !== event.pointerId) return;
    if (held.wall || held.thing) return drag(held, at);
    if (zoomedScale.value) zoomedScale.value = shifted(zoomedScale.value, [at[0] - before[0], at[1] - before[1]]);
  };

  const onPointerUp = (event: PointerEvent): void => {
    fingers.current.delete(event.pointerId);
    const held = grip.current;
    if (held?.pointer !== event.pointerId) return;
    grip.current = null;
    if (move.value) return void endDrag();
    const at = place(event);
    if (Math.hypot(at[0] - held.at[0], at[1] - held.at[1]) >= k_slack_px || held.wall) return;
    const thing = tapped(held.things);
    if (thing?.kind !== 'can') readAt.value = onPlan(scale.value, at);
    if (thing) begin(thing);
  };

  const onPointerCancel = (event: PointerEvent): void => {
    fingers.current.delete(event.pointerId);
    grip.current = null;
    void giveUpDrag();
  };

  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel };
}
