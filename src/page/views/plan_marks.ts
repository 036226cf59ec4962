// Where on the drawing marks and labels are, in pixels: where the engine says, and how far a hand has moved them since.

import { computed } from '@preact/signals';
import type { Can, Place, Point, Room } from '../engine/results';
import { room as knownRoom } from '../job/job_desk';
import { lightText } from '../parts/light_text';
import { isWall, move } from './plan_drag';
import { type Box, k_name_px, type Label, labelBeside, labelPlaces, nameLabels, type Named, squareAround } from './plan_labels';
import { boundsOf, onDrawing } from './plan_scale';
import { reading, scale } from './plan_state';
import { circuitLetter, isSame, isUnchecked, type Kind, placedThing, type Thing } from './plan_things';

const k_degree = Math.PI / 180;
const k_least_trim_px = 10;
const k_letter_px = 13;
const k_reading_px = 14;
const k_tip_px = 3;
const k_dimension_px = 19; // clear of the grips on the walls


export const k_eye_px = 5;
export const k_sight_px = 9;
export const k_switch_px = 9;
export const k_hub_px = 8;
export const k_point_px = 5;
/** From an eye to the tip of its arrow. */
export const k_look_px = 17;
/** From a trim to the tip of its arrow, and to a corner of the square of a can that does not fit. */
export const k_aim_px = 11;
export const k_misfit_px = 6;
/** From a trim to the square round a can that is not checked. */
export const k_unchecked_px = 3;

export const keyOf = ({ kind, number }: Thing): string => `${kind} ${number}`;

/** How far what is being moved is from where the job has it. */
function shift(room: Room, thing: Thing): Point {
  const now = move.value;
  const from = placedThing(room, thing)?.at;
  if (!now || isWall(now.of) || !isSame(now.of, thing) || !from) return [0, 0];
  const to = now.at ?? now.wished;
  return [to[0] - from[0], to[1] - from[1]];
}

/** On the plan, in metres: the corners of something with an outline. */
export function movedCorners(room: Room, thing: Thing, corners: readonly Point[]): readonly Point[] {
  const [dx, dy] = shift(room, thing);
  return corners.map(([x, y]) => [x + dx, y + dy]);
}

/** Where something is drawn that stands at one place. */
export function drawnAt(room: Room, thing: Thing, { x_m, y_m }: Place): Point {
  const [dx, dy] = shift(room, thing);
  return onDrawing(scale.value, [x_m + dx, y_m + dy]);
}

/** Round a can's hole; a can so small that it cannot be seen or read is drawn larger. */
export function trimRadius_px(room: Room, can: Can): number {
  const hole_m = room.can_types.find((type) => type.name === can.type)?.hole_m ?? 0;
  return Math.max(k_least_trim_px, (scale.value.px_per_m * hole_m) / 2);
}

/** A place so far from another in a direction of the plan. */
export const awayFrom = ([x, y]: Point, toward_deg: number, distance_px: number): Point => [
  x + distance_px * Math.cos(k_degree * toward_deg),
  y - distance_px * Math.sin(k_degree * toward_deg),
];

export const isAimed = ({ aim }: Can): boolean => aim !== null && aim.tilt_deg > 0;

function canBoxes(room: Room, can: Can): readonly Box[] {
  const at = drawnAt(room, { kind: 'can', number: can.number }, can);
  const r = trimRadius_px(room, can);
  const tip = (toward_deg: number, distance_px: number): Box =>
    squareAround(awayFrom(at, toward_deg, distance_px), k_tip_px);
  return [
    squareAround(at, isUnchecked(room, can) ? r + k_unchecked_px + 1 : r + 1),
    ...(can.aim && isAimed(can) ? [tip(can.aim.toward_deg, r + k_aim_px - k_tip_px)] : []),
    ...(can.fits === false ? [0, 90, 180, 270].map((corner_deg) => tip(corner_deg, r + k_misfit_px)) : []),
  ];
}

/** Outside of the walls, where the room's width and depth are written. */
export function dimensionsAt(room: Room): { readonly width: Point; readonly depth: Point } {
  const { low, high } = boundsOf(room.room.corners);
  const [left, top] = onDrawing(scale.value, [low[0], high[1]]);
  const [middle_x, middle_y] = onDrawing(scale.value, [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]);
  const off_px = k_dimension_px;
  return { width: [middle_x, top - off_px], depth: [left - off_px, middle_y] };
}

/** The cross where the light is read. */
const sight = (): readonly Box[] =>
  reading.value && !move.value ? [squareAround(onDrawing(scale.value, reading.value.at), k_sight_px)] : [];

/** What labels must not be written over. */
function takenBoxes(room: Room): readonly Box[] {
  const square = (kind: Kind, half_px: number) => (each: Place & { number: number }) =>
    squareAround(drawnAt(room, { kind, number: each.number }, each), half_px);
  const looks = room.seats.map((seat) => {
    const eye = drawnAt(room, { kind: 'seat', number: seat.number }, seat);
    return squareAround(awayFrom(eye, seat.toward_deg, k_look_px - k_tip_px), k_tip_px);
  });
  return [
    ...Object.values(dimensionsAt(room)).map((at) => squareAround(at, k_dimension_px)),
    ...room.cans.flatMap((can) => canBoxes(room, can)),
    ...room.seats.map(square('seat', k_eye_px)),
    ...looks,
    ...room.points.map(square('point', k_point_px)),
    ...room.switches.map(square('switch', k_switch_px)),
    ...room.fans.map(square('fan', k_hub_px)),
    ...sight(),
  ];
}

/** The circuit's letter, an exclamation mark where a can does not fit, a question mark where that is not known. */
export const letterText = (room: Room, can: Can): string =>
  `${circuitLetter(room, can.circuit)}${can.fits === false ? '!' : ''}${isUnchecked(room, can) ? '?' : ''}`;

function letterLabel(room: Room, can: Can): Label {
  const thing: Thing = { kind: 'can', number: can.number };
  const at = drawnAt(room, thing, can);
  const label = { key: keyOf(thing), text: letterText(room, can), size_px: k_letter_px };
  const radius_px = trimRadius_px(room, can) + (isUnchecked(room, can) ? k_unchecked_px : 0);
  return labelBeside(label, at, radius_px, 'corner');
}

const k_outlined = ['obstruction', 'task_area', 'keep_out'] as const;

/** Things with an outline, each with its kind, in the order in which they are drawn. */
export function outlinedThings(room: Room) {
  const lists = { obstruction: room.obstructions, task_area: room.task_areas, keep_out: room.keep_outs };
  return k_outlined.flatMap((kind) => lists[kind].map((thing) => ({ kind, thing })));
}

function outlinedNames(room: Room): readonly Named[] {
  return outlinedThings(room).map(({ kind, thing }) => {
    const which: Thing = { kind, number: thing.number };
    const places = movedCorners(room, which, thing.outline).map((place) => onDrawing(scale.value, place));
    const x = places.map((place) => place[0]);
    const y = places.map((place) => place[1]);
    const box = { left: Math.min(...x), right: Math.max(...x), top: Math.min(...y), bottom: Math.max(...y) };
    return { key: keyOf(which), name: thing.name, box };
  });
}

const fanLabels = (room: Room): readonly Label[] =>
  room.fans.map((fan) => {
    const thing: Thing = { kind: 'fan', number: fan.number };
    const label = { key: keyOf(thing), text: fan.name, size_px: k_name_px };
    return labelBeside(label, drawnAt(room, thing, fan), k_hub_px, 'above');
  });

export const k_reading_key = 'reading';

function readingLabels(room: Room): readonly Label[] {
  const found = reading.value;
  if (!found || move.value) return [];
  const text = lightText(found.lx, room.units, found.error_lx);
  const label = { key: k_reading_key, text, size_px: k_reading_px };
  const at = onDrawing(scale.value, found.at);
  const places = [0, k_reading_px, 2 * k_reading_px].flatMap(
    (farther_px) => labelBeside(label, at, k_sight_px + farther_px, 'above').places,
  );
  return [{ ...label, places, shuns: outlinedNames(room).map(({ box }) => box) }];
}

/** The middle of every label on the plan that has room there, by its key. */
export const labelsAt = computed<ReadonlyMap<string, Point>>(() => {
  const room = knownRoom.value;
  if (!room) return new Map();
  const labels = [
    ...readingLabels(room),
    ...room.cans.filter((can) => letterText(room, can) !== '').map((can) => letterLabel(room, can)),
    ...fanLabels(room),
    ...nameLabels(outlinedNames(room)),
  ];
  return labelPlaces(labels, takenBoxes(room));
});
