import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Circuit } from '../../src/page/engine/results';
import {
  allAt,
  circuitsNow,
  commonExposure,
  k_as_in_job,
  levelChanges,
  levelsOf,
  settingOf,
  settingsWritten,
  tintAt,
  withSetting,
} from '../../src/page/views/see_light';
import { type Group, modelOf, type RoomModel } from '../../src/page/views/see_model';
import { glb, k_description } from './small_model';

const k_read = modelOf(glb(k_description));
const group = (circuit: string | null, cans: readonly number[], level: number): Group => ({
  circuit,
  cans,
  level,
  tint: [1, 1, 1],
  tints: null,
  texels: new Uint16Array(),
});
const k_model: RoomModel = {
  ...k_read,
  groups: [group('ceiling', [1, 3], 0.5), group('entry', [2], 1), group(null, [4], 0.2), group(null, [5], 0.4)],
  moods: new Map([['evening', [0.25, 0, 0.2, 0.4]]]),
};
const square = Array.from({ length: 101 }, (_, setting) => (setting / 100) ** 2);
const k_circuits: readonly Circuit[] = [
  { name: 'ceiling', cans: [1, 3], dimmed: true, light_of_setting: square },
  { name: 'entry', cans: [2], dimmed: false, light_of_setting: Array.from({ length: 101 }, (_, i) => Number(i > 0)) },
  { name: 'unused', cans: [], dimmed: true, light_of_setting: square },
  { name: null, cans: [4, 5], dimmed: true, light_of_setting: Array.from({ length: 101 }, (_, i) => i / 100) },
];

test('levels are those of the job, of a mood, or what a setting gives', () => {
  assert.deepEqual(levelsOf(k_model, k_as_in_job, k_circuits), [0.5, 1, 0.2, 0.4]);
  const evening = { mood: 'evening', settings: new Map() };
  assert.deepEqual(levelsOf(k_model, evening, k_circuits), [0.25, 0, 0.2, 0.4]);
  assert.deepEqual(levelsOf(k_model, withSetting(evening, 'ceiling', 60), k_circuits), [0.36, 0, 0.2, 0.4]);
  assert.deepEqual(levelsOf(k_model, allAt(k_circuits, 0), k_circuits), [0, 0, 0, 0]);
  assert.deepEqual(levelsOf(k_model, allAt(k_circuits, 100), k_circuits), [1, 1, 1, 1]);
});

test('a mood that another model does not have leaves its cans as they are', () => {
  assert.deepEqual(levelsOf(k_model, { mood: 'gone', settings: new Map() }, k_circuits), [0.5, 1, 0.2, 0.4]);
});

test('a slider stands where its light comes nearest', () => {
  const ceiling = k_circuits[0];
  assert.ok(ceiling);
  for (let setting = 0; setting <= 100; ++setting) assert.equal(settingOf(ceiling, square[setting] ?? 0), setting);
  assert.equal(settingOf(ceiling, 0.5), 71); // 0.71 squared is 0.504
});

test('circuits with cans are set, those on none together', () => {
  const now = circuitsNow(k_model, k_as_in_job, k_circuits);
  assert.deepEqual(
    now.map(({ circuit: { name }, setting, levels }) => [name, setting, levels]),
    [
      ['ceiling', 71, [0.5, 0.5]],
      ['entry', 100, [1, 1]],
      [null, 20, [0.2, 0.4]],
    ],
  );
  assert.deepEqual(settingsWritten(now), { ceiling: '71 %', entry: 1 });
});

test('every can gets the level of its group', () => {
  assert.deepEqual(levelChanges(k_model, [0.1, 0, 0.3, 0.4]), [
    { set: ['cans', 0, 'level'], value: 0.1 },
    { set: ['cans', 2, 'level'], value: 0.1 },
    { set: ['cans', 1, 'level'], value: 0 },
    { set: ['cans', 3, 'level'], value: 0.3 },
    { set: ['cans', 4, 'level'], value: 0.4 },
  ]);
});

test('light that grows warmer has the colours of the tenths, and straight lines between them', () => {
  const tints = Array.from({ length: 11 }, (_, i) => [1, i, 2 * i] as const);
  const warm: Group = { ...group('ceiling', [1], 1), tints };
  const k_rounding = 1e-12; // of doubles near 20
  for (const level of [0, 0.1, 0.25, 0.999, 1]) {
    const [red, green, blue] = tintAt(warm, level);
    assert.equal(red, 1);
    assert.ok(Math.abs(green - 10 * level) < k_rounding && Math.abs(blue - 20 * level) < k_rounding, `at ${level}`);
  }
});

test('models that are looked at together have the exposure of the brightest', () => {
  const dim: RoomModel = { ...k_model, exposure: { ...k_model.exposure, adaptation_cd_m2: 2, white: 5 } };
  assert.equal(commonExposure([dim, k_model], k_as_in_job), k_model.exposure);
  assert.equal(commonExposure([k_model, dim], k_as_in_job), k_model.exposure);
  assert.equal(commonExposure([dim], k_as_in_job), dim.exposure);
  const moodsExposure = { ...k_model.exposure, white: 3 };
  const evening = { mood: 'evening', settings: new Map() };
  assert.equal(commonExposure([{ ...k_model, moodsExposure }], evening), moodsExposure);
  assert.equal(commonExposure([{ ...k_model, moodsExposure }], k_as_in_job), k_model.exposure);
});
