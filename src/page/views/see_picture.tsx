// The picture that is drawn, and hands on it: drags turn, two fingers and the wheel change the angle of view, keys do all.

import { effect } from '@preact/signals';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Point } from '../engine/results';
import { turned, widened } from './see_eye';
import type { RoomModel } from './see_model';
import { CannotDraw, Renderer } from './see_renderer';
import { alternatives, seen, type Seen } from './see_runs';
import { eye, look, shotOf, walk } from './see_state';

const k_most_device_px = 2; // for a pixel of the page
const k_turn_deg = 5;
const k_step_m = 0.25;
const k_wider = 1.1;
const k_wheel_px = 100; // a notch

interface PictureProps {
  readonly seen: Seen;
  /** Where it looks from, and what it shows. */
  readonly label: string;
  readonly onCannotDraw: (model: RoomModel, why: string) => void;
}

/** Draws when something has changed, once a frame. */
function useDrawing(of: Seen, onCannotDraw: (model: RoomModel, why: string) => void) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const shown = useRef(of);
  const again = useRef<() => void>(() => undefined);
  shown.current = of;
  useEffect(() => {
    const element = canvas.current;
    if (!element) return undefined;
    try {
      const drawing = begun(element, () => shown.current, onCannotDraw);
      again.current = drawing.again;
      return drawing.end;
    } catch (why) {
      if (!(why instanceof CannotDraw)) throw why;
      onCannotDraw(of.model, why.message);
      return undefined;
    }
  }, []);
  useEffect(() => again.current(), [of]);
  return canvas;
}

function begun(canvas: HTMLCanvasElement, shown: () => Seen, onCannotDraw: (model: RoomModel, why: string) => void) {
  const renderer = new Renderer(canvas);
  let frame = 0;
  const draw = (): void => {
    cancelAnimationFrame(frame);
    frame = 0;
    const shot = shotOf(shown().model);
    if (!shot || canvas.width === 0 || canvas.height === 0) return;
    try {
      renderer.keepOnly(
        new Set([shown(), ...(seen.value ? [seen.value] : []), ...alternatives.value].map(({ model }) => model)),
      );
      renderer.draw(shot);
    } catch (why) {
      if (!(why instanceof CannotDraw)) throw why;
      onCannotDraw(shown().model, why.message);
    }
  };
  const again = (): void => {
    if (frame === 0) frame = requestAnimationFrame(draw);
  };
  const sizes = new ResizeObserver(() => {
    const scale = Math.min(devicePixelRatio, k_most_device_px);
    canvas.width = Math.round(scale * canvas.clientWidth);
    canvas.height = Math.round(scale * canvas.clientHeight);
    draw(); // at once: a new size leaves the canvas empty
  });
  sizes.observe(canvas);
  const onLost = (event: Event): void => event.preventDefault(); // or it would never come back
  const onRestored = (): void => {
    renderer.forget();
    again();
  };
  canvas.addEventListener('webglcontextlost', onLost);
  canvas.addEventListener('webglcontextrestored', onRestored);
  const forgetSignals = effect(() => {
    shotOf(shown().model); // what the picture depends on
    again();
  });
  return {
    again,
    end: (): void => {
      forgetSignals();
      sizes.disconnect();
      canvas.removeEventListener('webglcontextlost', onLost);
      canvas.removeEventListener('webglcontextrestored', onRestored);
      cancelAnimationFrame(frame);
      renderer.close();
    },
  };
}

function turn(left_deg: number, up_deg: number): void {
  if (eye.value) look(turned(eye.value.eye, left_deg, up_deg));
}

function widen(factor: number): void {
  if (eye.value) look(widened(eye.value.eye, factor));
}

export const k_hands = {
  left: () => turn(k_turn_deg, 0),
  right: () => turn(-k_turn_deg, 0),
  up: () => turn(0, k_turn_deg),
  down: () => turn(0, -k_turn_deg),
  closer: () => widen(1 / k_wider),
  wider: () => widen(k_wider),
} as const;

const k_keys: Readonly<Record<string, () => void>> = {
  ArrowUp: () => walk(k_step_m, 0),
  ArrowDown: () => walk(-k_step_m, 0),
  ArrowLeft: k_hands.left,
  ArrowRight: k_hands.right,
  w: () => walk(k_step_m, 0),
  s: () => walk(-k_step_m, 0),
  a: () => walk(0, -k_step_m),
  d: () => walk(0, k_step_m),
  PageUp: k_hands.up,
  PageDown: k_hands.down,
  '+': k_hands.closer,
  '=': k_hands.closer,
  '-': k_hands.wider,
};

function onKey(event: KeyboardEvent): void {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const act = k_keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
  if (!act) return;
  event.preventDefault();
  act();
}

const apart = ([[ax, ay] = [0, 0], [bx, by] = [0, 0]]: readonly Point[]): number => Math.hypot(ax - bx, ay - by);

/** One finger turns: what it touches stays under it. Two change the angle of view. */
function useFingers() {
  const fingers = useRef(new Map<number, Point>());
  const onPointerDown = (event: PointerEvent): void => {
    if (!(event.currentTarget instanceof HTMLElement)) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    fingers.current.set(event.pointerId, [event.clientX, event.clientY]);
  };
  const onPointerMove = (event: PointerEvent): void => {
    const before = fingers.current.get(event.pointerId);
    if (!before || !eye.value || !(event.currentTarget instanceof HTMLElement)) return;
    const all = [...fingers.current.values()];
    fingers.current.set(event.pointerId, [event.clientX, event.clientY]);
    if (all.length === 1) {
      const deg_per_px = eye.value.eye.width_deg / event.currentTarget.clientWidth;
      turn(deg_per_px * (event.clientX - before[0]), deg_per_px * (event.clientY - before[1]));
    } else if (all.length === 2) {
      widen(apart(all) / Math.max(1, apart([...fingers.current.values()])));
    }
  };
  const onPointerUp = (event: PointerEvent): void => void fingers.current.delete(event.pointerId);
  return { onPointerDown, onPointerMove, onPointerUp, onPointerCancel: onPointerUp };
}

export function Picture({ seen: of, label, onCannotDraw }: PictureProps) {
  const canvas = useDrawing(of, onCannotDraw);
  const hands = useFingers();
  useEffect(() => {
    const element = canvas.current;
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      widen(k_wider ** (event.deltaY / k_wheel_px));
    };
    element?.addEventListener('wheel', onWheel, { passive: false });
    return () => element?.removeEventListener('wheel', onWheel);
  }, []);
  return (
    <canvas
      ref={canvas}
      class="see-canvas"
      role="application"
      aria-roledescription="picture to look around in"
      aria-label={label}
      aria-describedby="see-keys"
      tabIndex={0}
      onKeyDown={onKey}
      {...hands}
    />
  );
}

const k_speed_m_s = 1.2;
const k_longest_frame_s = 0.1;

const isCalm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

/** Walks as long as it is held, faster away from its middle; by steps for who wants no motion. */
export function WalkPad() {
  const [held, setHeld] = useState<Point | null>(null);
  const way = useRef<Point>([0, 0]);
  const frame = useRef(0);
  useEffect(() => () => cancelAnimationFrame(frame.current), []);
  const point = (event: PointerEvent): void => {
    if (!(event.currentTarget instanceof HTMLElement)) return;
    const { left, top, width, height } = event.currentTarget.getBoundingClientRect();
    const [right, down] = [(2 * (event.clientX - left)) / width - 1, (2 * (event.clientY - top)) / height - 1];
    const length = Math.max(1, Math.hypot(right, down));
    way.current = [right / length, -down / length];
    setHeld(way.current);
  };
  const step = (length_m: number): void => walk(length_m * way.current[1], length_m * way.current[0]);
  const onPointerDown = (event: PointerEvent): void => {
    if (!(event.currentTarget instanceof HTMLElement)) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    point(event);
    if (isCalm()) {
      step(k_step_m);
      return;
    }
    let before = performance.now();
    const glide = (now: number): void => {
      step(k_speed_m_s * Math.min((now - before) / 1000, k_longest_frame_s));
      before = now;
      frame.current = requestAnimationFrame(glide);
    };
    cancelAnimationFrame(frame.current);
    frame.current = requestAnimationFrame(glide);
  };
  const onPointerUp = (): void => {
    cancelAnimationFrame(frame.current);
    setHeld(null);
  };
  return (
    <div
      class="see-pad"
      aria-hidden="true" // the picture's keys do the same
      onPointerDown={onPointerDown}
      onPointerMove={(event) => {
        if (held) point(event);
      }}
      onPointerUp={onPointerUp}
      onPointerCancel={onPointerUp}
    >
      <svg viewBox="-50 -50 100 100">
        <circle r="48" />
        <path d="M-9 -30L0 -40L9 -30M-9 30L0 40L9 30M-30 -9L-40 0L-30 9M30 -9L40 0L30 9" />
        <circle class="stick" r="17" cx={24 * (held?.[0] ?? 0)} cy={-24 * (held?.[1] ?? 0)} />
      </svg>
    </div>
  );
}
