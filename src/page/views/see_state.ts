// What is looked at, from where, and how it is lit. Nothing of it is in the job until it is saved as a mood.

import { computed, signal } from '@preact/signals';
import { firstText, room } from '../job/job_desk';
import { type Eye, eyeOf, stepOf } from './see_eye';
import { commonExposure, k_as_in_job, levelsOf, type Lighting } from './see_light';
import type { RoomModel } from './see_model';
import type { Shot } from './see_renderer';
import { alternatives, type Seen, seen } from './see_runs';
import { linesAt, walked } from './see_walk';

/** What is set, and the first text of the job that it is set in: another job begins anew. */
const lastSet = signal({ opened: '', lighting: k_as_in_job });
export const lighting = computed(() =>
  lastSet.value.opened === firstText.value ? lastSet.value.lighting : k_as_in_job,
);

export function relight(next: Lighting): void {
  lastSet.value = { opened: firstText.value, lighting: next };
}

/** The label of an alternative; empty: the job as it is. */
export const shownLabel = signal('');
export const isSideBySide = signal(false);

/** null: as the first view has it. */
const movedEye = signal<{ readonly opened: string; readonly eye: Eye; readonly from: string } | null>(null);

/** From where it is seen, and of which view it came. */
export const eye = computed(() => {
  if (movedEye.value?.opened === firstText.value) return movedEye.value;
  const first = seen.value?.model.views[0];
  return first ? { eye: eyeOf(first), from: first.name } : null;
});

/** Looks from one of the job's views, or turns and walks on from there. */
export function look(next: Eye, from = eye.value?.from ?? ''): void {
  movedEye.value = { opened: firstText.value, eye: next, from };
}

export const shown = computed<Seen | null>(
  () => alternatives.value.find(({ label }) => label === shownLabel.value) ?? seen.value,
);

const circuits = computed(() => room.value?.circuits ?? []);

const exposure = computed(() => {
  if (!seen.value) return null;
  return commonExposure([seen.value.model, ...alternatives.value.map(({ model }) => model)], lighting.value);
});

export function shotOf(model: RoomModel | undefined): Shot | null {
  if (!model || !eye.value || !exposure.value) return null;
  const levels = levelsOf(model, lighting.value, circuits.value);
  return { model, levels, exposure: exposure.value, eye: eye.value.eye };
}

const height_m = computed(() => eye.value?.eye.place_m[2] ?? 0);
/** What stands in the way of who walks. */
const lines = computed(() => (shown.value ? linesAt(shown.value.model, height_m.value) : []));

export function walk(ahead_m: number, right_m: number): void {
  const now = eye.value?.eye;
  if (!now) return;
  const [x, y, z] = now.place_m;
  const [nextX, nextY] = walked([x, y], stepOf(now, ahead_m, right_m), lines.value);
  look({ ...now, place_m: [nextX, nextY, z] });
}
