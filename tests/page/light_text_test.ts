import assert from 'node:assert/strict';
import { test } from 'node:test';
import { lightText, moneyText, percentText, roundedText } from '../../src/page/parts/light_text';

// Cases of tests/base/figures_test.cpp: the page rounds as the command line does.
test('three digits, none finer than the error', () => {
  const cases: readonly [number, number, string][] = [
    [0, 0, '0'],
    [33.4412, 0, '33.4'],
    [359.6, 0, '360'],
    [0.012345, 0, '0.0123'],
    [10764, 0, '10800'],
    [9.994, 0, '9.99'],
    [9.996, 0, '10.0'],
    [999.6, 0, '1000'],
    [9996, 0, '10000'],
    [0.9996, 0, '1.00'],
    [9.6, 0.3, '9.6'],
    [9.96, 0.3, '10.0'],
    [9.6, 1, '10'],
    [33.4412, 0.9, '33.4'],
  ];
  for (const [value, error, text] of cases) assert.equal(roundedText(value, error), text);
});

// What `evenlit compare scenes/family-room.toml` prints of these values of its JSON.
test('light in the unit of the job', () => {
  assert.equal(lightText(279.991, 'imperial', 0.230446), '26.0 fc');
  assert.equal(lightText(80.6536, 'imperial', 0.692832), '7.49 fc');
  assert.equal(lightText(279.991, 'metric', 0.230446), '280 lx');
});

test('money with cents only where there are some', () => {
  assert.equal(moneyText(196, '$'), '$196');
  assert.equal(moneyText(24.5, 'EUR '), 'EUR 24.50');
});

test('percent with tenths only of what is little', () => {
  assert.deepEqual([0, 0.004, 0.0994, 0.0996, 1].map(percentText), ['0 %', '0.4 %', '9.9 %', '10 %', '100 %']);
});
