// The plan to scale: what the engine says is where, in pixels.

import { useComputed, useSignalEffect } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Can, Outlined, Place, Point, Room } from '../engine/results';
import { isRough, light, room } from '../job/job_desk';
import { useBlobAddress } from '../parts/blob_address';
import { lightText } from '../parts/light_text';
import { isWall, move, type Wall } from './plan_drag';
import { useHands } from './plan_hands';
import { type Box, type Named, namePlaces } from './plan_names';
import { boundsOf, onDrawing, type Scale } from './plan_scale';
import { begin, reading, scale, selectedThing, size_px, work } from './plan_state';
import { canWords, circuitLetter, isSame, k_kinds, type Kind, placedThing, type Thing } from './plan_things';

const k_degree = Math.PI / 180;
const k_least_trim_px = 10;
const k_eye_px = 5;
const k_touch_px = 22;

const pathOfPoints = (scale: Scale, points: readonly Point[]): string =>
  points.map((point) => onDrawing(scale, point).map((px) => px.toFixed(1)).join(' ')).join('L');

const closed = (scale: Scale, points: readonly Point[]): string => `M${pathOfPoints(scale, points)}Z`;
const open = (scale: Scale, points: readonly Point[]): string => `M${pathOfPoints(scale, points)}`;

const isSelectedThing = (thing: Thing): boolean => isSame(selectedThing.value, thing);

/** A dark line with a light edge, so that it shows on a map of every colour. */
function Line({ kind, d }: { kind: string; d: string }) {
  return (
    <>
      <path class={`edge ${kind}-edge`} d={d} />
      <path class={kind} d={d} />
    </>
  );
}

const circle = ([x, y]: Point, r: number): string => `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;

/** Anything that can be selected, by finger or by key. Pointers are seen to by `useHands`. */
function Selectable({ thing, label, children }: { thing: Thing; label: string; children: ComponentChildren }) {
  const isSelected = isSelectedThing(thing);
  return (
    <g
      class={`thing ${thing.kind}${isSelected ? ' selected' : ''}`}
      role="button"
      tabindex={0}
      aria-label={label}
      aria-pressed={isSelected}
      data-kind={thing.kind}
      data-number={thing.number}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return;
        event.preventDefault();
        begin(thing);
      }}
    >
      {children}
    </g>
  );
}

/** How far what is being moved is from where the job has it. */
function shift(room: Room, thing: Thing): Point {
  const now = move.value;
  const from = placedThing(room, thing)?.at;
  if (!now || isWall(now.of) || !isSame(now.of, thing) || !from) return [0, 0];
  const to = now.at ?? now.wished;
  return [to[0] - from[0], to[1] - from[1]];
}

const shifted = (points: readonly Point[], [dx, dy]: Point): readonly Point[] =>
  points.map(([x, y]) => [x + dx, y + dy]);

function Name({ at, children }: { at: Point; children: string }) {
  return (
    <text class="name" x={at[0]} y={at[1]}>
      {children}
    </text>
  );
}

interface OutlinedProps {
  readonly room: Room;
  readonly kind: Kind;
  readonly thing: Outlined;
  readonly nameAt: Point | null;
}

function OutlinedThing({ room, kind, thing, nameAt }: OutlinedProps) {
  const which: Thing = { kind, number: thing.number };
  const outline = shifted(thing.outline, shift(room, which));
  const corner = (i: number): Point => outline[i % outline.length] ?? [0, 0];
  const half = Math.floor(outline.length / 2);
  const quarter = Math.floor(outline.length / 4);
  return (
    <Selectable thing={which} label={`${k_kinds[kind].title}: ${thing.name}`}>
      <Line kind="outline" d={closed(scale.value, outline)} />
      {kind === 'keep_out' && (
        <Line
          kind="cross"
          d={`${open(scale.value, [corner(0), corner(half)])}${open(scale.value, [corner(quarter), corner(half + quarter)])}`}
        />
      )}
      {nameAt && <Name at={nameAt}>{thing.name}</Name>}
    </Selectable>
  );
}

const k_outlined = ['obstruction', 'task_area', 'keep_out'] as const;

/** What names must not be written over: cans and eyes. */
function takenBoxes(room: Room): readonly Box[] {
  const square = (half_px: number) => (place: Place) => {
    const [x, y] = onDrawing(scale.value, [place.x_m, place.y_m]);
    return { left: x - half_px, right: x + half_px, top: y - half_px, bottom: y + half_px };
  };
  return [...room.cans.map(square(k_least_trim_px + 1)), ...room.seats.map(square(k_eye_px))];
}

function namedBox(room: Room, kind: Kind, { number, name, outline }: Outlined): Named {
  const places = shifted(outline, shift(room, { kind, number })).map((place) => onDrawing(scale.value, place));
  const x = places.map((place) => place[0]);
  const y = places.map((place) => place[1]);
  return { name, left: Math.min(...x), right: Math.max(...x), top: Math.min(...y), bottom: Math.max(...y) };
}

function OutlinedThings({ room }: { room: Room }) {
  const lists = { obstruction: room.obstructions, task_area: room.task_areas, keep_out: room.keep_outs };
  const all = k_outlined.flatMap((kind) => lists[kind].map((thing) => ({ kind, thing })));
  const names = namePlaces(
    all.map(({ kind, thing }) => namedBox(room, kind, thing)),
    takenBoxes(room),
  );
  return all.map(({ kind, thing }, i) => (
    <OutlinedThing key={`${kind} ${thing.number}`} room={room} kind={kind} thing={thing} nameAt={names[i] ?? null} />
  ));
}

function Fans({ room }: { room: Room }) {
  return room.fans.map((fan) => {
    const thing: Thing = { kind: 'fan', number: fan.number };
    const [dx, dy] = shift(room, thing);
    const [x, y] = onDrawing(scale.value, [fan.x_m + dx, fan.y_m + dy]);
    return (
      <Selectable key={fan.number} thing={thing} label={`Fan: ${fan.name}`}>
        <Line kind="outline" d={circle([x, y], (scale.value.px_per_m * fan.diameter_m) / 2)} />
        <Line kind="cross" d={`M${x - 8} ${y}h16M${x} ${y - 8}v16`} />
        <Name at={[x, y + 18]}>{fan.name}</Name>
      </Selectable>
    );
  });
}

/** Doors, windows and other areas of walls: a band on the wall's line. */
function WallAreas({ room }: { room: Room }) {
  return room.wall_areas.map((area) => {
    const thing: Thing = { kind: 'wall_area', number: area.number };
    const line = open(scale.value, shifted(area.line, shift(room, thing)));
    return (
      <Selectable key={area.number} thing={thing} label={`On the ${area.wall} wall: ${area.name}`}>
        <path class="touch" d={line} />
        <path class={`band ${area.kind}`} d={line} />
        <path class={`core ${area.kind}`} d={line} />
      </Selectable>
    );
  });
}

function arrow([x, y]: Point, toward_deg: number, from_px: number, to_px: number): string {
  const along = (distance: number, side: number): string => {
    const [dx, dy] = [Math.cos(k_degree * toward_deg), -Math.sin(k_degree * toward_deg)];
    return `${(x + distance * dx - side * dy).toFixed(1)} ${(y + distance * dy + side * dx).toFixed(1)}`;
  };
  return `M${along(from_px, 0)}L${along(to_px, 0)}M${along(to_px - 5, -4)}L${along(to_px, 0)}L${along(to_px - 5, 4)}`;
}

function Marks({ room }: { room: Room }) {
  const mark = (kind: Kind, number: number, name: string, at: Point, shape: (px: Point) => ComponentChildren) => {
    const thing: Thing = { kind, number };
    const [dx, dy] = shift(room, thing);
    const px = onDrawing(scale.value, [at[0] + dx, at[1] + dy]);
    return (
      <Selectable key={`${kind} ${number}`} thing={thing} label={`${k_kinds[kind].title}: ${name}`}>
        <circle class="touch" cx={px[0]} cy={px[1]} r={k_touch_px} />
        {shape(px)}
      </Selectable>
    );
  };
  const seat = (toward_deg: number) => (px: Point) => (
    <>
      <Line kind="mark" d={arrow(px, toward_deg, k_eye_px, 17)} />
      <Line kind="eye" d={circle(px, k_eye_px)} />
    </>
  );
  const cross = ([x, y]: Point) => <Line kind="mark" d={`M${x - 5} ${y}h10M${x} ${y - 5}v10`} />;
  const box = ([x, y]: Point) => (
    <>
      <rect class="switch-box" x={x - 9} y={y - 9} width="18" height="18" rx="3" />
      <text class="switch-letter" x={x} y={y}>
        S
      </text>
    </>
  );
  return (
    <>
      {room.seats.map((each) => mark('seat', each.number, each.name, [each.x_m, each.y_m], seat(each.toward_deg)))}
      {room.points.map((each) => mark('point', each.number, each.name, [each.x_m, each.y_m], cross))}
      {room.switches.map((each) => mark('switch', each.number, each.name, [each.x_m, each.y_m], box))}
    </>
  );
}

/** A can as its trim: round; in a square on its corner and with an exclamation mark where it does not fit. */
function CanTrim({ room, can }: { room: Room; can: Can }) {
  const thing: Thing = { kind: 'can', number: can.number };
  const [dx, dy] = shift(room, thing);
  const at = onDrawing(scale.value, [can.x_m + dx, can.y_m + dy]);
  const [x, y] = at;
  const hole_m = room.can_types.find((type) => type.name === can.type)?.hole_m ?? 0;
  const r = Math.max(k_least_trim_px, (scale.value.px_per_m * hole_m) / 2);
  const d = r + 6;
  const letter = circuitLetter(room, can.circuit);
  return (
    <>
      <Selectable thing={thing} label={canWords(can)}>
        <circle class="touch" cx={x} cy={y} r={Math.max(k_touch_px, r)} />
        {can.fits === false && <Line kind="misfit" d={`M${x} ${y - d}L${x + d} ${y}L${x} ${y + d}L${x - d} ${y}Z`} />}
        {can.aim && can.aim.tilt_deg > 0 && <Line kind="aim" d={arrow(at, can.aim.toward_deg, r, r + 11)} />}
        {isSelectedThing(thing) && <Line kind="ring" d={circle(at, r + 4)} />}
        <circle class={can.hangs ? 'trim hanging' : 'trim'} cx={x} cy={y} r={r} />
        <text class="number" x={x} y={y}>
          {can.number}
        </text>
      </Selectable>
      <text class="letter" x={x + r + 5} y={y - r - 2} aria-hidden="true">
        {`${letter}${can.fits === false ? '!' : ''}`}
      </text>
    </>
  );
}

const k_outward: Record<Wall['wall'], Point> = { south: [0, -1], east: [1, 0], north: [0, 1], west: [-1, 0] };

const isUprightWall = (name: string): name is Wall['wall'] => Object.hasOwn(k_outward, name);

/** Handles in the middle of a rectangle's walls, while the room is worked on. */
function WallHandles({ room }: { room: Room }) {
  if (work.value !== 'room' || room.room.kind !== 'rectangle') return null;
  const { corners } = room.room;
  return corners.map((corner, i) => {
    const next = corners[(i + 1) % corners.length] ?? corner;
    const wall = corner.wall_from_here;
    if (!isUprightWall(wall)) return null;
    const [x, y] = onDrawing(scale.value, [(corner.x_m + next.x_m) / 2, (corner.y_m + next.y_m) / 2]);
    const angle_deg = Math.atan2(k_outward[wall][1], k_outward[wall][0]) / k_degree;
    return (
      <g key={wall} class="handle" data-wall={wall}>
        <circle class="touch" cx={x} cy={y} r={k_touch_px} />
        <circle class="grip" cx={x} cy={y} r="11" />
        <path class="grip-arrow" d={`${arrow([x, y], angle_deg, 0, 8)}${arrow([x, y], angle_deg + 180, 0, 8)}`} />
      </g>
    );
  });
}

/** Rows that the moved can is in, and where the hand is if the can cannot be there. */
function Guides() {
  const now = move.value;
  if (!now?.placed) return null;
  const hand = onDrawing(scale.value, now.wished);
  return (
    <g aria-hidden="true">
      {now.placed.in_line.map(({ line }, i) => (
        <Line key={i} kind="guide" d={open(scale.value, line)} />
      ))}
      <Line kind={now.at ? 'hand' : 'refused'} d={circle(hand, 16)} />
      {!now.at && <Line kind="refused" d={`M${hand[0] - 11} ${hand[1] - 11}l22 22m0 -22l-22 22`} />}
    </g>
  );
}

function Reading({ room }: { room: Room }) {
  const found = reading.value;
  if (!found || move.value) return null;
  const [x, y] = onDrawing(scale.value, found.at);
  return (
    <g class="reading" aria-hidden="true">
      <Line kind="sight" d={`M${x - 9} ${y}h6m6 0h6M${x} ${y - 9}v6m0 6v6`} />
      <text x={x} y={y - 14}>
        {lightText(found.lx, room.units, found.error_lx)}
      </text>
    </g>
  );
}

const k_bars = {
  imperial: [1, 2, 3, 4, 5, 10, 20, 50, 100].map((feet) => ({ length_m: 0.3048 * feet, text: `${feet} ft` })),
  metric: [0.2, 0.5, 1, 2, 5, 10, 20, 50].map((metres) => ({ length_m: metres, text: `${metres} m` })),
} as const;

function ScaleBar({ units }: { units: Room['units'] }) {
  const [width_px, height_px] = size_px.value;
  const bars = k_bars[units];
  const bar = bars.findLast(({ length_m }) => length_m * scale.value.px_per_m < width_px / 4) ?? bars[0];
  if (!bar) return null;
  const length_px = bar.length_m * scale.value.px_per_m;
  return (
    <g class="scale-bar" aria-hidden="true">
      <path d={`M8 ${height_px - 11}v6h${length_px.toFixed(1)}v-6`} />
      <text x={14 + length_px} y={height_px - 5}>
        {bar.text}
      </text>
    </g>
  );
}

/** Width and depth of a rectangle, outside of its walls. */
function Dimensions({ room }: { room: Room }) {
  const { width, depth, corners } = room.room;
  if (!width || !depth) return null;
  const { low, high } = boundsOf(corners);
  const top = onDrawing(scale.value, [(low[0] + high[0]) / 2, high[1]]);
  const left = onDrawing(scale.value, [low[0], (low[1] + high[1]) / 2]);
  return (
    <g class="dimensions">
      <text x={top[0]} y={top[1] - 14}>
        {width}
      </text>
      <text transform={`translate(${left[0] - 14} ${left[1]}) rotate(-90)`}>{depth}</text>
    </g>
  );
}

function Floor({ room }: { room: Room }) {
  const address = useBlobAddress(light.value?.floor ?? null);
  const { corners } = room.room;
  const { low, high } = boundsOf(corners);
  const [x, y] = onDrawing(scale.value, [low[0], high[1]]);
  const outline = corners.map((corner): Point => [corner.x_m, corner.y_m]);
  return (
    <>
      <path class="floor" d={closed(scale.value, outline)} />
      {address && (
        <image
          href={address}
          x={x}
          y={y}
          width={scale.value.px_per_m * (high[0] - low[0])}
          height={scale.value.px_per_m * (high[1] - low[1])}
          preserveAspectRatio="none"
        />
      )}
      {room.framing.map((piece, i) => (
        <path key={i} class="framing" d={closed(scale.value, piece.outline)} />
      ))}
      <path class="walls" d={closed(scale.value, outline)} />
    </>
  );
}

function Contents({ room }: { room: Room }) {
  return (
    <>
      <Floor room={room} />
      <OutlinedThings room={room} />
      <Fans room={room} />
      <WallAreas room={room} />
      <Marks room={room} />
      {room.cans.map((can) => (
        <CanTrim key={can.number} room={room} can={can} />
      ))}
      <Guides />
      <Reading room={room} />
      <WallHandles room={room} />
      <Dimensions room={room} />
      <ScaleBar units={room.units} />
    </>
  );
}

/** Tells the drawing's size, now and whenever it changes. */
function useSize(element: { readonly current: Element | null }): void {
  useEffect(() => {
    if (!element.current) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) size_px.value = [entry.contentRect.width, entry.contentRect.height];
    });
    observer.observe(element.current);
    return () => observer.disconnect();
  }, []);
}

/** A room taller than wide takes more of the page's height. */
const useShape = () =>
  useComputed(() => {
    const corners = room.value?.room.corners ?? [];
    if (corners.length === 0) return 1;
    const { low, high } = boundsOf(corners);
    return Math.min(1.6, Math.max(0.5, (high[1] - low[1]) / (high[0] - low[0])));
  });

export function PlanDrawing() {
  const svg = useRef<SVGSVGElement>(null);
  useSize(svg);
  const hands = useHands(svg);
  const shape = useShape();
  useSignalEffect(() => {
    svg.current?.style.setProperty('--shape', String(shape.value));
  });
  if (!room.value) return <svg class="plan-drawing" ref={svg} />;
  return (
    <svg
      class={isRough.value ? 'plan-drawing rough' : 'plan-drawing'}
      ref={svg}
      role="application"
      tabindex={0}
      aria-label={`Plan of ${room.value.room.name}. Arrow keys read the light.`}
      aria-describedby="plan-findings"
      {...hands}
    >
      <Contents room={room.value} />
    </svg>
  );
}
