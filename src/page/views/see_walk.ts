// Where somebody can walk: not through what stands at the height of the eyes.

import type { Point, Room } from '../engine/results';
import { distance_m, type Line } from '../parts/line';
import type { Eye } from './see_eye';
import { stepOf } from './see_eye';
import type { RoomModel } from './see_model';

const k_apart_m = 0.2;

/** What a level plane cuts of the room's surfaces, as lines on the plan. */
export function linesAt({ faces }: RoomModel, height_m: number): readonly Line[] {
  const lines: Line[] = [];
  for (const { kind, corners_m, triangles } of faces) {
    if (kind !== 'surface') continue;
    for (let i = 0; i < triangles.length; i += 3) {
      const [from, to] = crossings(corners_m, triangles.subarray(i, i + 3), height_m);
      if (from && to) lines.push([from, to]);
    }
  }
  return lines;
}

function crossings(corners_m: Float32Array, triangle: Uint32Array, height_m: number): readonly Point[] {
  const corner = (i: number): Float32Array => {
    const first = 3 * (triangle[i % 3] ?? 0);
    return corners_m.subarray(first, first + 3);
  };
  return [0, 1, 2].flatMap((i): readonly Point[] => {
    const [x = 0, y = 0, z = 0] = corner(i);
    const [toX = 0, toY = 0, toZ = 0] = corner(i + 1);
    if (z < height_m === toZ < height_m) return [];
    const share = (height_m - z) / (toZ - z);
    return [[x + share * (toX - x), y + share * (toY - y)]];
  });
}

/** Twice the area of a triangle, above 0 where it turns left. */
const turn = ([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

const cross = ([a, b]: Line, [c, d]: Line): boolean =>
  turn(a, b, c) > 0 !== turn(a, b, d) > 0 && turn(c, d, a) > 0 !== turn(c, d, b) > 0;

/** Who stands too near to something already may only walk away from it. */
const isInTheWay = (line: Line, from: Point, to: Point): boolean =>
  cross([from, to], line) || distance_m(to, line) < Math.min(k_apart_m, distance_m(from, line));

/** A step, as far as it goes: along what is in its way, or not at all. */
export function walked(from: Point, [east, north]: Point, lines: readonly Line[]): Point {
  const to: Point = [from[0] + east, from[1] + north];
  const wall = lines.find((line) => isInTheWay(line, from, to));
  if (!wall) return to;
  const [along, up] = [wall[1][0] - wall[0][0], wall[1][1] - wall[0][1]];
  const share = (east * along + north * up) / (along ** 2 + up ** 2 || 1);
  const slid: Point = [from[0] + share * along, from[1] + share * up];
  return lines.some((line) => isInTheWay(line, from, slid)) ? from : slid;
}

/** The name of the wall that an eye looks toward. */
export function wallAhead(eye: Eye, corners: Room['room']['corners']): string {
  const [x, y] = eye.place_m;
  const [east, north] = stepOf(eye, 1, 0);
  const walls = corners.flatMap(({ x_m, y_m, wall_from_here: name }, i) => {
    const next = corners[(i + 1) % corners.length];
    if (!next) return [];
    const [along, up] = [next.x_m - x_m, next.y_m - y_m];
    const facing = east * up - north * along;
    const ahead_m = ((x_m - x) * up - (y_m - y) * along) / facing;
    const share = ((x_m - x) * north - (y_m - y) * east) / facing;
    return ahead_m > 0 && share >= 0 && share <= 1 ? [{ name, ahead_m }] : [];
  });
  return walls.sort((a, b) => a.ahead_m - b.ahead_m)[0]?.name ?? '';
}
