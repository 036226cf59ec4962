// The plan to scale: what the engine says is where, in pixels.

import { useComputed, useSignalEffect } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Can, Outlined, Point, Room, Standing } from '../engine/results';
import { isRough, light, room } from '../job/job_desk';
import { useBlobAddress } from '../parts/blob_address';
import { lightText } from '../parts/light_text';
import { move, type Wall } from './plan_drag';
import { useHands } from './plan_hands';
import {
  awayFrom,
  dimensionsAt,
  drawnAt,
  isAimed,
  k_aim_px,
  k_eye_px,
  k_hub_px,
  k_look_px,
  k_misfit_px,
  k_point_px,
  k_reading_key,
  k_sight_px,
  k_switch_px,
  k_unchecked_px,
  keyOf,
  labelsAt,
  letterText,
  movedCorners,
  outlinedThings,
  trimRadius_px,
} from './plan_marks';
import { boundsOf, onDrawing, type Scale } from './plan_scale';
import { begin, reading, scale, selectedThing, size_px, work } from './plan_state';
import { canWords, isSame, isUnchecked, k_kinds, type Kind, type Thing } from './plan_things';

const k_touch_px = 22;
const k_barb_px = 6.4;
const k_barb_deg = 141;

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

const cross = ([x, y]: Point, r: number): string => `M${x - r} ${y}h${2 * r}M${x} ${y - r}v${2 * r}`;

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

interface LabelProps {
  readonly of: string;
  readonly kind: 'name' | 'letter' | 'read';
  readonly children: string;
}

/** A label, where there is room for it. */
function Label({ of, kind, children }: LabelProps) {
  const at = labelsAt.value.get(of);
  if (!at) return null;
  return (
    <text class={kind} x={at[0]} y={at[1]} aria-hidden="true">
      {children}
    </text>
  );
}

interface OutlinedProps {
  readonly room: Room;
  readonly kind: Kind;
  readonly thing: Outlined;
}

function OutlinedThing({ room, kind, thing }: OutlinedProps) {
  const which: Thing = { kind, number: thing.number };
  const outline = movedCorners(room, which, thing.outline);
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
      <Label of={keyOf(which)} kind="name">
        {thing.name}
      </Label>
    </Selectable>
  );
}

function OutlinedThings({ room }: { room: Room }) {
  return outlinedThings(room).map(({ kind, thing }) => (
    <OutlinedThing key={`${kind} ${thing.number}`} room={room} kind={kind} thing={thing} />
  ));
}

function Fans({ room }: { room: Room }) {
  return room.fans.map((fan) => {
    const thing: Thing = { kind: 'fan', number: fan.number };
    const [x, y] = drawnAt(room, thing, fan);
    return (
      <Selectable key={fan.number} thing={thing} label={`Fan: ${fan.name}`}>
        <Line kind="outline" d={circle([x, y], (scale.value.px_per_m * fan.diameter_m) / 2)} />
        <Line kind="cross" d={cross([x, y], k_hub_px)} />
        <Label of={keyOf(thing)} kind="name">
          {fan.name}
        </Label>
      </Selectable>
    );
  });
}

/** Doors, windows and other areas of walls: a band on the wall's line. */
function WallAreas({ room }: { room: Room }) {
  return room.wall_areas.map((area) => {
    const thing: Thing = { kind: 'wall_area', number: area.number };
    const line = open(scale.value, movedCorners(room, thing, area.line));
    return (
      <Selectable key={area.number} thing={thing} label={`On the ${area.wall} wall: ${area.name}`}>
        <path class="touch" d={line} />
        <path class={`band ${area.kind}`} d={line} />
        <path class={`core ${area.kind}`} d={line} />
      </Selectable>
    );
  });
}

function arrow(from: Point, toward_deg: number, from_px: number, to_px: number): string {
  const written = (place: Point): string => place.map((px) => px.toFixed(1)).join(' ');
  const tip = awayFrom(from, toward_deg, to_px);
  const barb = (side: 1 | -1): string => written(awayFrom(tip, toward_deg + side * k_barb_deg, k_barb_px));
  return `M${written(awayFrom(from, toward_deg, from_px))}L${written(tip)}M${barb(1)}L${written(tip)}L${barb(-1)}`;
}

function Marks({ room }: { room: Room }) {
  const mark = (kind: Kind, each: Standing, shape: (px: Point) => ComponentChildren) => {
    const thing: Thing = { kind, number: each.number };
    const px = drawnAt(room, thing, each);
    return (
      <Selectable key={keyOf(thing)} thing={thing} label={`${k_kinds[kind].title}: ${each.name}`}>
        <circle class="touch" cx={px[0]} cy={px[1]} r={k_touch_px} />
        {shape(px)}
      </Selectable>
    );
  };
  const seat = (toward_deg: number) => (px: Point) => (
    <>
      <Line kind="mark" d={arrow(px, toward_deg, k_eye_px, k_look_px)} />
      <Line kind="eye" d={circle(px, k_eye_px)} />
    </>
  );
  const point = (px: Point) => <Line kind="mark" d={cross(px, k_point_px)} />;
  const box = ([x, y]: Point) => (
    <>
      <rect class="switch-box" x={x - k_switch_px} y={y - k_switch_px} width={2 * k_switch_px} height={2 * k_switch_px} rx="3" />
      <text class="switch-letter" x={x} y={y}>
        S
      </text>
    </>
  );
  return (
    <>
      {room.seats.map((each) => mark('seat', each, seat(each.toward_deg)))}
      {room.points.map((each) => mark('point', each, point))}
      {room.switches.map((each) => mark('switch', each, box))}
    </>
  );
}

/**
 * A can as its trim: round; in a square on its corner and with an exclamation mark where it does not fit, in a dashed square
 * that stands and with a question mark where that is not known. */
function CanTrim({ room, can }: { room: Room; can: Can }) {
  const thing: Thing = { kind: 'can', number: can.number };
  const at = drawnAt(room, thing, can);
  const [x, y] = at;
  const r = trimRadius_px(room, can);
  const d = r + k_misfit_px;
  const half = r + k_unchecked_px;
  return (
    <>
      <Selectable thing={thing} label={canWords(room, can)}>
        <circle class="touch" cx={x} cy={y} r={Math.max(k_touch_px, r)} />
        {can.fits === false && <Line kind="misfit" d={`M${x} ${y - d}L${x + d} ${y}L${x} ${y + d}L${x - d} ${y}Z`} />}
        {isUnchecked(room, can) && <Line kind="unchecked" d={`M${x - half} ${y - half}h${2 * half}v${2 * half}h${-2 * half}Z`} />}
        {can.aim && isAimed(can) && <Line kind="aim" d={arrow(at, can.aim.toward_deg, r, r + k_aim_px)} />}
        {isSelectedThing(thing) && <Line kind="ring" d={circle(at, r + 4)} />}
        <circle class={can.hangs ? 'trim hanging' : 'trim'} cx={x} cy={y} r={r} />
        <text class="number" x={x} y={y}>
          {can.number}
        </text>
      </Selectable>
      <Label of={keyOf(thing)} kind="letter">
        {letterText(room, can)}
      </Label>
    </>
  );
}

const k_outward_deg: Record<Wall['wall'], number> = { south: 270, east: 0, north: 90, west: 180 };

const isUprightWall = (name: string): name is Wall['wall'] => Object.hasOwn(k_outward_deg, name);

/** Handles in the middle of a rectangle's walls, while the room is worked on. */
function WallHandles({ room }: { room: Room }) {
  if (work.value !== 'room' || room.room.kind !== 'rectangle') return null;
  const { corners } = room.room;
  return corners.map((corner, i) => {
    const next = corners[(i + 1) % corners.length] ?? corner;
    const wall = corner.wall_from_here;
    if (!isUprightWall(wall)) return null;
    const [x, y] = onDrawing(scale.value, [(corner.x_m + next.x_m) / 2, (corner.y_m + next.y_m) / 2]);
    const outward_deg = k_outward_deg[wall];
    return (
      <g key={wall} class="handle" data-wall={wall}>
        <circle class="touch" cx={x} cy={y} r={k_touch_px} />
        <circle class="grip" cx={x} cy={y} r="11" />
        <path class="grip-arrow" d={`${arrow([x, y], outward_deg, 0, 8)}${arrow([x, y], outward_deg + 180, 0, 8)}`} />
      </g>
    );
  });
}

/** The numbers that the fields of the corners have, while the room is worked on. */
function CornerNumbers({ room }: { room: Room }) {
  if (work.value !== 'room' || room.room.kind !== 'corners') return null;
  return (
    <g aria-hidden="true">
      {room.room.corners.map((corner, i) => {
        const [x, y] = onDrawing(scale.value, [corner.x_m, corner.y_m]);
        return (
          <g key={i} class="corner">
            <rect x={x - 9} y={y - 9} width="18" height="18" />
            <text x={x} y={y}>
              {i + 1}
            </text>
          </g>
        );
      })}
    </g>
  );
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
      <Line kind="sight" d={`M${x - k_sight_px} ${y}h6m6 0h6M${x} ${y - k_sight_px}v6m0 6v6`} />
      <Label of={k_reading_key} kind="read">
        {lightText(found.lx, room.units, found.error_lx)}
      </Label>
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
      <path d={`M8 ${height_px - 14}v6h${length_px.toFixed(1)}v-6`} />
      <text x={14 + length_px} y={height_px - 9}>
        {bar.text}
      </text>
    </g>
  );
}

/** Width and depth of a rectangle, outside of its walls. */
function Dimensions({ room }: { room: Room }) {
  const { width, depth } = room.room;
  if (!width || !depth) return null;
  const at = dimensionsAt(room);
  return (
    <g class="dimensions">
      <text x={at.width[0]} y={at.width[1]}>
        {width}
      </text>
      <text transform={`translate(${at.depth[0]} ${at.depth[1]}) rotate(-90)`}>{depth}</text>
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
      <CornerNumbers room={room} />
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
