// From metres on the plan to pixels of its drawing, and back.

import type { Place, Point } from '../engine/results';

/** The point (0, 0) of the plan is at (`left_px`, `top_px`); north is up. */
export interface Scale {
  readonly px_per_m: number;
  readonly left_px: number;
  readonly top_px: number;
}

export interface Bounds {
  readonly low: Point;
  readonly high: Point;
}

export function boundsOf(places: readonly Place[]): Bounds {
  const x = places.map((place) => place.x_m);
  const y = places.map((place) => place.y_m);
  return { low: [Math.min(...x), Math.min(...y)], high: [Math.max(...x), Math.max(...y)] };
}

export const onDrawing = (scale: Scale, [x, y]: Point): Point => [
  scale.left_px + x * scale.px_per_m,
  scale.top_px - y * scale.px_per_m,
];

export const onPlan = (scale: Scale, [x, y]: Point): Point => [
  (x - scale.left_px) / scale.px_per_m,
  (scale.top_px - y) / scale.px_per_m,
];

/** The largest scale at which all within the bounds is `margin_px` off the edges, in the middle. */
export function fitted(bounds: Bounds, width_px: number, height_px: number, margin_px: number): Scale {
  const width_m = bounds.high[0] - bounds.low[0];
  const depth_m = bounds.high[1] - bounds.low[1];
  const px_per_m = Math.max(1, Math.min((width_px - 2 * margin_px) / width_m, (height_px - 2 * margin_px) / depth_m));
  return {
    px_per_m,
    left_px: (width_px - px_per_m * (bounds.low[0] + bounds.high[0])) / 2,
    top_px: (height_px + px_per_m * (bounds.low[1] + bounds.high[1])) / 2,
  };
}

/** The same seen `factor` times as large, with the point of the drawing `at` staying where it is. */
export const zoomed = (scale: Scale, factor: number, [x, y]: Point): Scale => ({
  px_per_m: scale.px_per_m * factor,
  left_px: x + (scale.left_px - x) * factor,
  top_px: y + (scale.top_px - y) * factor,
});

export const shifted = (scale: Scale, [x, y]: Point): Scale => ({
  ...scale,
  left_px: scale.left_px + x,
  top_px: scale.top_px + y,
});
