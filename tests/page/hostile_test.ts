import assert from 'node:assert/strict';
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { eventually, type OpenedPage, scene } from './opened_page';
import { pageTest, pageTests } from './page_tests';

/** Whether the page still answers within a second while it computes, or after. */
async function assertAnswers(opened: OpenedPage): Promise<void> {
  const begun = Date.now();
  await opened.page.evaluate(() => new Promise(requestAnimationFrame));
  assert.ok(Date.now() - begun < 1000, 'the page hangs');
}

const k_script = `</script><img src=x onerror="hurt=1"><svg onload="hurt=1"><script>hurt=1</script>`;

/** A kitchen in which every name is a script. */
const scripted = (): string =>
  `${scene('metric-kitchen').replace('"Kitchen"', `'${k_script}'`).replaceAll('downlight', 'X')}
[[obstructions]]
name = '${k_script} table'
from = { west = "1 m", south = "1 m" }
width = "50 cm"
depth = "50 cm"
top = "70 cm"

[[task_areas]]
name = '${k_script} area'
from = { west = "2 m", south = "1 m" }
width = "50 cm"
depth = "50 cm"
height = "70 cm"
`
    .replace('[can_types.X]', `[can_types.${JSON.stringify(k_script)}]`)
    .replaceAll('type = "X"', `type = ${JSON.stringify(k_script)}`);

pageTests('a script in a job’s names stays text', async (opened) => {
  const name = `${k_script.replaceAll('/', '')}.toml`;
  await opened.openJob(name, scripted());
  assert.equal(await opened.heading(), k_script);
  await opened.press(opened.page.getByText('All that is in the room'));
  await opened.press(opened.page.locator('.contents').getByRole('button', { name: /^Furniture: / }));
  await opened.press(opened.page.locator('.panel').getByRole('button', { name: /^Close/ }));
  for (const sheet of [/^Set-out sheet/, /^Handout/]) {
    await opened.show('Hand over');
    await opened.press(opened.button(sheet));
    await opened.button('All sheets').waitFor();
    await opened.page.locator('.engine-page').getByText('onerror').first().waitFor();
    await opened.press(opened.button('All sheets'));
  }
  await opened.show('Choose');
  await opened.press(opened.button('Compare'));
  await opened.page.locator('.choose .card').first().waitFor();
  await opened.button('Compare').waitFor();
  await opened.openMenu();
  assert.equal(await opened.page.evaluate(() => Reflect.get(globalThis, 'hurt')), undefined);
  // An element that came of a name would be one that the page never makes.
  assert.equal(await opened.page.locator('img[src=x], svg[onload]').count(), 0);
});

pageTests('a room that is too large is refused, and the page goes on', async (opened) => {
  await opened.openDemo('metric-kitchen');
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Room', exact: true }));
  const width = opened.field('Width, west to east');
  await width.fill('10 km');
  await width.press('Enter');
  await eventually(async () => assert.equal(await width.getAttribute('aria-invalid'), 'true'));
  await assertAnswers(opened);
  assert.equal(await opened.text(), scene('metric-kitchen'));
});

pageTest('a large job computes while the page answers', 'phone', async (opened) => {
  const cans = Array.from(
    { length: 150 },
    (_, i) => `[[cans]]\ntype = "downlight"\nfrom = { west = "${1 + 2 * (i % 15)} m", south = "${1 + 2 * Math.floor(i / 15)} m" }\n`,
  );
  const large = scene('metric-kitchen')
    .replace('3.60 m', '30 m')
    .replace('2.80 m', '20 m')
    .replace(/\[\[cans\]\][^]*/, cans.join('\n'));
  await opened.openFiles({ name: 'hall.toml', bytes: large });
  await opened.changed((text) => text === large);
  await opened.show('Plan');
  await assertAnswers(opened);
  await opened.page.locator('.facts').waitFor();
  assert.equal(await opened.cans().count(), 150);
});

const k_note = '# a note that nobody will read, but that is somebody’s all the same\n';

/** A kitchen with notes, this many bytes at most. */
function longJob(bytes: number): string {
  const text = scene('metric-kitchen');
  return text + k_note.repeat((bytes - Buffer.byteLength(text)) / Buffer.byteLength(k_note));
}

for (const [what, bytes] of [
  ['broken TOML', '[room\nname = "x"'],
  ['a picture', randomBytes(5000)],
  ['nothing', ''],
  ['TOML of something else', 'title = "a shopping list"\n[milk]\nlitres = 2\n'],
  ['a job whose can stands outside', scene('metric-kitchen').replace('west = "0.90 m"', 'west = "90 m"')],
  ['a job that is too long', longJob(2_000_000)],
  ['nested brackets without end', `x = ${'['.repeat(100_000)}`],
] as const) {
  pageTest(`${what} instead of a job is told of, and the old job is there`, 'phone', async (opened) => {
    await opened.openDemo('metric-kitchen');
    for (const name of ['bad.toml', 'worse.toml']) {
      await opened.openFiles({ name, bytes: Buffer.from(bytes) });
      await opened.page.locator('[role=alert]', { hasText: /\S/ }).first().waitFor();
      await assertAnswers(opened);
    }
    assert.equal(await opened.text(), scene('metric-kitchen'));
    await opened.show('Plan');
    await opened.lit();
    assert.equal(await opened.cans().count(), 4);
  });
}

pageTests('a photometric file that is broken is refused, and can be left out', async (opened) => {
  await opened.openDemo('metric-kitchen');
  const broken = readFileSync('photometry/six-inch-medium.ies', 'utf8').slice(0, 600);
  await opened.drop({ name: 'broken.ies', bytes: broken }, { name: 'noise.ldt', bytes: randomBytes(20_000) });
  for (const name of ['broken.ies', 'noise.ldt']) {
    await opened.page.locator('.card', { hasText: name }).locator('.engine-says', { hasText: /\S/ }).waitFor();
    await opened.press(opened.button(`Leave it out: ${name}`));
  }
  assert.equal(await opened.page.locator('.card').count(), 0);
  assert.equal(await opened.text(), scene('metric-kitchen'));
});

pageTests('a job without its photometric file asks for it', async (opened) => {
  await opened.openFiles({ name: 'family-room.toml', bytes: scene('family-room') });
  const add = opened.page.getByLabel('Add this file: ../photometry/six-inch-medium.ies');
  await add.waitFor();
  assert.deepEqual(await opened.barriers(), []);
  const given = (name: string) => ({ name: `another name.ies`, mimeType: '', buffer: readFileSync(`photometry/${name}.ies`) });
  await add.setInputFiles(given('six-inch-medium'));
  await opened.page.getByLabel('Add this file: ../photometry/four-inch-medium.ies').setInputFiles(given('four-inch-medium'));
  await opened.show('Plan');
  await opened.page.locator('.facts').waitFor();
  assert.equal(await opened.text(), scene('family-room'));
});

pageTests('a job comes with its photometric files in one go', async (opened) => {
  const file = (name: string) => ({ name: `${name}.ies`, bytes: readFileSync(`photometry/${name}.ies`) });
  await opened.drop(
    { name: 'family-room.toml', bytes: scene('family-room') },
    file('six-inch-medium'),
    file('four-inch-medium'),
    file('six-inch-wide'),
  );
  await opened.changed((text) => text === scene('family-room'));
  await opened.page.locator('.card', { hasText: 'six-inch-wide.ies' }).waitFor(); // the one that the job does not name
  assert.equal(await opened.page.locator('.card').count(), 1);
});

pageTest('a job of a megabyte loses nothing', 'phone', async (opened) => {
  const text = longJob(1_000_000);
  await opened.openJob('long.toml', text);
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Can', exact: true }));
  const after = await opened.changed((now) => now !== text);
  assert.equal(after.split(k_note).length, text.split(k_note).length);
  await opened.press(opened.button('Undo'));
  await opened.changed((now) => now === text);
});
