// Light and other figures as the program writes them at a terminal.

import type { Room } from '../engine/results';

export type Units = Room['units'];

const k_lux_per_footcandle = 10.76391;

/** Three significant digits, and none finer than the leading digit of the error. */
export function figureText(value: number, error = 0): string {
  if (value === 0) return '0';
  const finest = error > 0 ? Math.floor(Math.log10(error)) : -9;
  let lastDigit = Math.max(Math.floor(Math.log10(Math.abs(value))) - 2, finest, -9);
  if (Math.round(Math.abs(value) / 10 ** lastDigit) >= 1000) lastDigit += 1; // rounded up to a digit more: 9.996
  if (lastDigit <= 0) return value.toFixed(-lastDigit);
  return String(Math.round(value / 10 ** lastDigit) * 10 ** lastDigit);
}

/** Light in the unit of the job: foot-candles or lux. */
export function lightText(lx: number, units: Units, error_lx = 0): string {
  const [unit_lx, unit] = units === 'imperial' ? [k_lux_per_footcandle, 'fc'] : [1, 'lx'];
  return `${figureText(lx / unit_lx, error_lx / unit_lx)} ${unit}`;
}
