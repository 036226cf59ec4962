// Figures as the command line prints them: three digits, none finer than their error.

const k_lx_per_footcandle = 10.76391;

/** @param error of the value, in its unit; 0: none is known */
export function roundedText(value: number, error = 0): string {
  if (value === 0) return '0';
  const finest = error > 0 ? Math.floor(Math.log10(error)) : -9;
  const digit = Math.max(Math.floor(Math.log10(Math.abs(value))) - 2, finest);
  const lastDigit = Math.round(Math.abs(value) / 10 ** digit) >= 1000 ? digit + 1 : digit; // rounded up: 9.996
  if (lastDigit <= 0) return value.toFixed(-lastDigit);
  return String(Math.round(value / 10 ** lastDigit) * 10 ** lastDigit);
}

/** Light in the unit that a job prints first. */
export function lightText(lx: number, units: 'imperial' | 'metric', error_lx = 0): string {
  if (units === 'metric') return `${roundedText(lx, error_lx)} lx`;
  return `${roundedText(lx / k_lx_per_footcandle, error_lx / k_lx_per_footcandle)} fc`;
}

export function moneyText(amount: number, currency: string): string {
  const cents = Math.round(100 * amount);
  return currency + (cents / 100).toFixed(cents % 100 === 0 ? 0 : 2);
}
