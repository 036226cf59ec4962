import assert from 'node:assert/strict';
import type { Light } from '../../src/page/engine/results';
import { lightText } from '../../src/page/parts/light_text';
import { k_demos } from './opened_page';
import { pageTest, written } from './page_tests';

const nativeLight = (name: string): Light =>
  JSON.parse(written('light', `scenes/${name}.toml`, '--json', 'light.json').toString()) as Light;

function assertWithin(a: number, b: number, error: number, what: string): void {
  assert.ok(Math.abs(a - b) <= error, `${what}: ${a} and ${b} differ by more than ${error}`);
}

// Both programs bound the errors of their own figures, so figures of one point may differ by the sum of the two at most.
for (const name of k_demos) {
  pageTest(`the light of ${name} is what the command line computes`, 'phone', async (opened) => {
    await opened.openDemo(name);
    const here = await opened.light();
    const there = nativeLight(name);
    const [a, b] = [here.results, there.results];
    assertWithin(a.average_lx, b.average_lx, a.average_error_lx + b.average_error_lx, 'average');
    assert.equal(here.power.power_w, there.power.power_w);
    assert.deepEqual([here.grid.x_m, here.grid.y_m], [there.grid.x_m, there.grid.y_m]);
    const errors = here.grid.error_lx.map((error, i) => error + (there.grid.error_lx[i] ?? 0));
    assert.equal(errors.length, there.grid.illuminance_lx.length);
    for (const [i, lx] of here.grid.illuminance_lx.entries()) {
      assertWithin(lx, there.grid.illuminance_lx[i] ?? NaN, errors[i] ?? 0, `point ${i}`);
    }
    assertWithin(a.minimum_lx, b.minimum_lx, Math.max(...errors), 'minimum');
    const units = name.startsWith('metric') ? 'metric' : 'imperial';
    const shown = await opened.page.locator('.facts dd').allTextContents();
    assert.deepEqual(shown.slice(0, 2), [
      lightText(a.average_lx, units, a.average_error_lx),
      lightText(a.minimum_lx, units),
    ]);
  });
}
