// From where the room is seen, and how its corners come to lie in the picture.

import type { SeenFrom, Vector } from './see_model';

export interface Eye {
  readonly place_m: Vector;
  /** On the plan: 0 east, 90 north. */
  readonly toward_deg: number;
  /** Above the horizon. */
  readonly tilt_deg: number;
  /** From the left to the right side of the picture. */
  readonly width_deg: number;
}

const k_steepest_deg = 80;
const k_narrowest_deg = 25;
const k_widest_deg = 110;
const k_nearest_m = 0.05;
const k_farthest_m = 1500; // a room's sides are 1 km at most

const radians = (deg: number): number => (deg * Math.PI) / 180;
const degrees = (rad: number): number => (rad * 180) / Math.PI;
const within = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const eyeOf = ({ eye_m, toward: [x, y, z], width_deg }: SeenFrom): Eye => ({
  place_m: eye_m,
  toward_deg: degrees(Math.atan2(y, x)),
  tilt_deg: degrees(Math.atan2(z, Math.hypot(x, y))),
  width_deg,
});

/** @param left_deg,up_deg by which it turns */
export const turned = (eye: Eye, left_deg: number, up_deg: number): Eye => ({
  ...eye,
  toward_deg: ((eye.toward_deg + left_deg + 540) % 360) - 180,
  tilt_deg: within(eye.tilt_deg + up_deg, -k_steepest_deg, k_steepest_deg),
});

/** @param factor of the angle of view, above 1 to see more of the room */
export const widened = (eye: Eye, factor: number): Eye => ({
  ...eye,
  width_deg: within(eye.width_deg * factor, k_narrowest_deg, k_widest_deg),
});

/** A step on the plan for an eye that looks somewhere. */
export function stepOf({ toward_deg }: Eye, ahead_m: number, right_m: number): readonly [number, number] {
  const [east, north] = [Math.cos(radians(toward_deg)), Math.sin(radians(toward_deg))];
  return [ahead_m * east + right_m * north, ahead_m * north - right_m * east];
}

/** From the plan's coordinates to the picture's, column by column as shaders take it. The horizon is level. */
export function pictureOf(eye: Eye, aspect: number): Float32Array {
  const [c, s] = [Math.cos(radians(eye.toward_deg)), Math.sin(radians(eye.toward_deg))];
  const [level, rise] = [Math.cos(radians(eye.tilt_deg)), Math.sin(radians(eye.tilt_deg))];
  const ahead: Vector = [level * c, level * s, rise];
  const right: Vector = [s, -c, 0];
  const up: Vector = [-rise * c, -rise * s, level];
  const across = 1 / Math.tan(radians(eye.width_deg) / 2);
  const depth = (k_farthest_m + k_nearest_m) / (k_farthest_m - k_nearest_m);
  const row = (direction: Vector, scale: number): readonly number[] => [
    ...direction.map((each) => scale * each),
    -scale * dot(direction, eye.place_m),
  ];
  const rows = [row(right, across), row(up, across * aspect), row(ahead, depth), row(ahead, 1)];
  const picture = Float32Array.from({ length: 16 }, (_, i) => rows[i % 4]?.[Math.floor(i / 4)] ?? 0);
  picture[14] = (picture[14] ?? 0) - (2 * k_farthest_m * k_nearest_m) / (k_farthest_m - k_nearest_m);
  return picture;
}
