import assert from 'node:assert/strict';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { evenlit, eventually, middleOf, type OpenedPage, scene } from './opened_page';
import { k_folder, pageTest, pageTests } from './page_tests';

/** The lines of a can's table in the job's text. */
const canText = (text: string, number: number): string => text.split('[[cans]]')[number]?.split('\n\n')[0] ?? '';

async function openThing(opened: OpenedPage, name: RegExp): Promise<void> {
  await opened.press(opened.page.getByText('All that is in the room'));
  await opened.press(opened.page.locator('details.contents').getByRole('button', { name }).first());
}

async function type(opened: OpenedPage, label: string, text: string): Promise<void> {
  await opened.field(label).fill(text);
  await opened.field(label).press('Enter');
}

pageTests('a new room is asked for as a tape reads it', async (opened) => {
  await opened.openMenu();
  await opened.press(opened.page.getByText('New room', { exact: true }));
  await opened.field('Name').fill('Back "office"');
  await opened.field('Width, west to east').fill(`12' 6-3/8"`);
  await opened.field('Depth, south to north').fill('10ft 3 1/2in');
  await opened.field('Ceiling, above the floor').fill('');
  await opened.press(opened.button('Keys for: Ceiling, above the floor'));
  for (const key of ['8', 'ft']) await opened.press(opened.button(key));
  await opened.press(opened.button('Make this room, with four cans'));
  await opened.page.locator('.panel').waitFor({ state: 'detached' });
  await opened.lit();
  assert.equal(await opened.heading(), 'Back "office"');
  assert.equal(await opened.cans().count(), 4);
  // 12 ft 6 3/8 in is 150.375 in, 10 ft 3 1/2 in is 123.5 in; the plan writes lengths as the engine prints them.
  assert.deepEqual(await opened.page.locator('.dimensions text').allTextContents(), [`12' 6-3/8"`, `10' 3-1/2"`]);
  const { x_m, y_m } = (await opened.light()).grid;
  assert.ok(Math.max(...x_m) < 150.375 * 0.0254 && Math.max(...y_m) < 123.5 * 0.0254);
});

pageTests('a new room that cannot be is refused beside its fields, and the old job stays', async (opened) => {
  await opened.openMenu();
  await opened.press(opened.page.getByText('New room', { exact: true }));
  await opened.field('Width, west to east').fill('twelve feet');
  await opened.press(opened.button('Make this room, with four cans'));
  const width = opened.field('Width, west to east');
  await eventually(async () => assert.equal(await width.getAttribute('aria-invalid'), 'true'));
  const told = opened.page.locator('.new-room .entry', { has: width }).locator('.wrong');
  assert.match(await told.innerText(), /^Room width "twelve feet" is not a length. Write feet and inches like /);
  await opened.press(opened.button('Close: Job'));
  assert.equal(await opened.heading(), 'Living room');
});

pageTests('a can that is dragged onto a joist tells why it cannot be there, and goes where it fits', async (opened) => {
  await opened.openDemo('family-room');
  const before = await opened.text();
  const can = await middleOf(opened.can(2));
  const joists = await opened.page.locator('.framing').evaluateAll((all) =>
    all.map((joist) => joist.getBoundingClientRect()).map(({ x, width }) => x + width / 2),
  );
  const joist = joists.reduce((best, x) => (Math.abs(x - can.x) < Math.abs(best - can.x) ? x : best));
  await opened.drag(can, { x: joist, y: can.y }, async () => {
    await opened.page.locator('.says', { hasText: /joist/ }).waitFor();
  });
  const after = await opened.changed((text) => text !== before);
  assert.notEqual(canText(after, 2), canText(before, 2));
  assert.equal(after.replace(canText(after, 2), ''), before.replace(canText(before, 2), ''));
  await eventually(async () => assert.doesNotMatch((await opened.can(2).getAttribute('aria-label')) ?? '', /does not fit/));
});

pageTests('while a can is dragged the colours keep their meaning', async (opened) => {
  await opened.openDemo('family-room');
  const legend = opened.page.locator('.legend ol');
  const before = await legend.allInnerTexts();
  const can = await middleOf(opened.can(2));
  const other = await middleOf(opened.can(1)); // two cans over each other are brighter than any place was
  await opened.drag(can, { x: other.x + 12, y: other.y }, async () => {
    await opened.page.locator('.rough-mark').waitFor();
    assert.deepEqual(await legend.allInnerTexts(), before);
  });
  await opened.lit();
  assert.notDeepEqual(await legend.allInnerTexts(), before);
});

pageTests('a can is moved by what is typed, and undo and redo go back and forth', async (opened) => {
  await opened.openDemo('family-room');
  const before = await opened.text();
  const average = (await opened.light()).results.average_lx;
  await openThing(opened, /^Can 1,/);
  await type(opened, 'From west', `3' 6-1/4"`);
  const after = await opened.changed((text) => text !== before);
  assert.ok(canText(after, 1).includes(String.raw`west = "3' 6-1/4\""`), canText(after, 1));
  assert.notEqual((await opened.light()).results.average_lx, average);
  await opened.press(opened.button('Undo'));
  await opened.changed((text) => text === before);
  assert.equal((await opened.light()).results.average_lx, average);
  assert.equal(await opened.button('Undo').isDisabled(), true);
  await opened.press(opened.button('Redo'));
  await opened.changed((text) => text === after);
  assert.equal(await opened.button('Redo').isDisabled(), true);
});

pageTests('a place outside of the room is refused beside the field, and nothing is changed', async (opened) => {
  await opened.openDemo('family-room');
  await openThing(opened, /^Can 1,/);
  await type(opened, 'From west', '99 ft');
  const field = opened.field('From west');
  await eventually(async () => assert.equal(await field.getAttribute('aria-invalid'), 'true'));
  const told = await field.evaluate((input) =>
    (input.getAttribute('aria-describedby') ?? '')
      .split(' ')
      .map((id) => document.getElementById(id)?.textContent ?? '')
      .join(' '),
  );
  assert.match(told, /outside the room/);
  assert.equal(await field.inputValue(), '99 ft');
  assert.equal(await opened.text(), scene('family-room'));
});

pageTests('keys for lengths write feet, inches and eighths', async (opened) => {
  await opened.openDemo('family-room');
  await openThing(opened, /^Can 1,/);
  await opened.press(opened.button('Keys for: From west'));
  const keys = opened.page.getByRole('group', { name: 'Keys for lengths' });
  for (const key of ['3', 'ft', '6', '3/8']) await opened.press(keys.getByRole('button', { name: key, exact: true }));
  await opened.press(opened.button('OK: From west'));
  assert.match(canText(await opened.changed((text) => text.includes('3ft 6-3/8in')), 1), /west = "3ft 6-3\/8in"/);
});

pageTests('a can is added where it fits and removed again', async (opened) => {
  await opened.openDemo('keeping-room');
  const before = await opened.text();
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Can', exact: true }));
  await opened.can(8).waitFor();
  const added = await opened.changed((text) => text !== before);
  assert.ok(added.startsWith(before.trimEnd()), 'what was there stays as it was');
  assert.doesNotMatch((await opened.can(8).getAttribute('aria-label')) ?? '', /does not fit/);
  await opened.press(opened.button('Remove'));
  await opened.changed((text) => text.trimEnd() === before.trimEnd());
  assert.equal(await opened.cans().count(), 7);
});

pageTests('comments stay through edits of every kind', async (opened) => {
  await opened.openDemo('family-room');
  const comments = (text: string): readonly string[] => text.match(/#.*/g) ?? [];
  const before = comments(await opened.text());
  assert.ok(before.length > 10);
  await openThing(opened, /^Can 1,/);
  await type(opened, 'From west', '3ft');
  await opened.changed((text) => text.includes('west = "3ft"'));
  await opened.press(opened.button('Close: Can 1'));
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Room', exact: true }));
  await type(opened, 'Width, west to east', '19ft');
  await type(opened, 'Wanted average light', '25 fc');
  const after = await opened.changed((text) => text.includes('width = "19ft"') && text.includes('target = "25 fc"'));
  assert.deepEqual(comments(after), before);
});

pageTests('a tap on the floor reads the light of the nearest counted point', async (opened) => {
  await opened.openDemo('metric-kitchen');
  const floor = await middleOf(opened.page.locator('.plan-drawing .floor'));
  if (opened.isTouched) await opened.page.touchscreen.tap(floor.x, floor.y);
  else await opened.page.mouse.click(floor.x, floor.y);
  const says = opened.page.locator('.says', { hasText: 'Light here' });
  await says.waitFor();
  const read = Number(/Light here: ([\d.]+) lx/.exec(await says.innerText())?.[1]);
  const { x_m, y_m, illuminance_lx } = (await opened.light()).grid;
  // The kitchen is 3.60 m by 2.80 m. The page prints three digits.
  const distances = x_m.map((x, i) => Math.hypot(x - 1.8, (y_m[i] ?? 0) - 1.4));
  const nearest = Math.min(...distances);
  const values = illuminance_lx.filter((_, i) => (distances[i] ?? 0) < nearest + 0.02); // a tap is a pixel wide
  assert.ok(
    values.some((value) => Math.abs(value - read) <= 0.5),
    `${read} is none of ${values}`,
  );
  await opened.press(opened.button('Clear the reading'));
  await opened.page.locator('.says', { hasText: 'Tap the floor' }).waitFor();
  assert.equal(await opened.page.locator('.reading').count(), 0);
});

pageTest('a tap on the plan that opens a panel does nothing else', 'phone', async (opened) => {
  await opened.page.setViewportSize({ width: 390, height: 844 });
  const before = await opened.text();
  const things = opened.page.locator('.thing:not(.can)');
  for (let i = 0; i < (await things.count()); ++i) {
    const spot = await things.nth(i).boundingBox();
    assert.ok(spot);
    await opened.page.touchscreen.tap(spot.x + spot.width / 2, spot.y + spot.height / 2);
    const panel = opened.page.locator('.panel');
    await panel.waitFor();
    await opened.page.waitForTimeout(400); // as long as browsers take to make up a click
    assert.notEqual(await panel.getAttribute('aria-label'), 'Room');
    assert.notEqual(await panel.getAttribute('aria-label'), 'Add');
    await opened.press(panel.getByRole('button', { name: /^Close/ }));
    await panel.waitFor({ state: 'detached' });
  }
  assert.equal(await opened.text(), before);
});

async function newRoom(opened: OpenedPage): Promise<void> {
  await opened.openMenu();
  await opened.press(opened.page.getByText('New room', { exact: true }));
  await opened.press(opened.button('Make this room, with four cans'));
  await opened.page.locator('.panel').waitFor({ state: 'detached' });
  await opened.lit();
}

async function add(opened: OpenedPage, what: string): Promise<void> {
  await opened.press(opened.button('Add …'));
  await opened.press(opened.page.locator('.panel').getByRole('button', { name: what, exact: true }));
}

pageTests('a switch puts the cans of a new room on a circuit, and the room can be wired', async (opened) => {
  await newRoom(opened);
  await add(opened, 'Switch');
  await opened.field('Cable to the cans').selectOption('12/2');
  await type(opened, 'Depth of the joists', '9-1/4in');
  const text = await opened.changed((now) => now.includes('joist_depth'));
  const file = join(k_folder, 'wired.toml');
  writeFileSync(file, text);
  const told = evenlit('wiring', file).replace(/\s+/g, ' ');
  assert.match(told, /4 cans on 1 circuit, 1 switch box, .* of 12\/2 cable/);
  await opened.press(opened.button('Close: Switch: switch'));
});

pageTests('a can gets a circuit of its own, all cans follow, and a second switch is refused in plain words', async (opened) => {
  await newRoom(opened);
  await openThing(opened, /^Can 1,/);
  await opened.field('Circuit').selectOption('a new one, switched');
  await opened.changed((text) => text.includes('switch = true'));
  await opened.press(opened.button('Put all cans on “general”'));
  await opened.changed((text) => text.split('circuit = "general"').length === 5);
  await opened.field('Worked by').selectOption('a dimmer: wall_box');
  await opened.changed((text) => text.includes('dimmer = "wall_box"'));
  await opened.press(opened.button('Add a switch for it'));
  await opened.changed((text) => text.includes('[[wiring.switches]]'));
  await add(opened, 'Switch');
  await opened.page.locator('.says', { hasText: 'Every circuit has its switch' }).waitFor();
});

pageTests('a can whose hole is not known is told as not checked until the hole is typed', async (opened) => {
  await newRoom(opened);
  await openThing(opened, /^Can 1,/);
  await type(opened, 'Hole, diameter', '');
  await opened.changed((text) => !/^hole/m.test(text));
  const can = opened.can(1);
  assert.match((await can.getAttribute('aria-label')) ?? '', /not checked against joists and vents/);
  assert.equal(await can.locator('.unchecked').count(), 1);
  await opened.page.locator('.panel p', { hasText: 'not checked against joists and vents' }).waitFor();
  await type(opened, 'Hole, diameter', '6-3/8in');
  await opened.press(opened.button('Its housing above the ceiling'));
  await type(opened, 'Housing, length', '12in');
  const text = await opened.changed((now) => now.includes('length = "12in"'));
  assert.match(text, /^hole = "6-3\/8in"$/m);
  assert.doesNotMatch((await can.getAttribute('aria-label')) ?? '', /not checked/);
  await opened.press(opened.button('Close: Can 1'));
});

pageTests('joists that are added show their fields at once', async (opened) => {
  await newRoom(opened);
  await add(opened, 'Joists');
  await opened.field('First joist').waitFor();
  const field = await opened.field('Spacing').boundingBox();
  const panel = await opened.page.locator('.panel').boundingBox();
  assert.ok(field && panel && field.y > panel.y && field.y + field.height < panel.y + panel.height);
  await opened.page.locator('.framing').first().waitFor({ state: 'attached' });
});

pageTests('a can that does not fit goes to the nearest place that does', async (opened) => {
  await newRoom(opened);
  await add(opened, 'Joists');
  await opened.press(opened.button('Close: Joists'));
  await openThing(opened, /^Can 1,/);
  await type(opened, 'From west', '3ft'); // the first joist is 8 in from the west wall, the others 16 in apart
  const before = await opened.changed((text) => text.includes('west = "3ft"'));
  await opened.press(opened.button('Move to the nearest place that fits'));
  await opened.changed((text) => text !== before);
  await opened.page.locator('.says', { hasText: /^Can 1: [a-z]/ }).waitFor();
  assert.doesNotMatch((await opened.can(1).getAttribute('aria-label')) ?? '', /does not fit/);
});

pageTests('a can is said to fit only where the ceiling is known, and not beside an entry that is refused', async (opened) => {
  await newRoom(opened);
  await openThing(opened, /^Can 1,/);
  const fits = opened.page.locator('.panel .fits');
  assert.match(await fits.innerText(), /Not checked against joists and vents/);
  await opened.press(opened.button('Close: Can 1'));
  await opened.openDemo('family-room');
  await openThing(opened, /^Can 1,/);
  assert.equal(await fits.innerText(), 'Fits between the framing.');
  await type(opened, 'From west', '99 ft');
  await fits.waitFor({ state: 'hidden' });
  await opened.press(opened.button('Close: Can 1'));
});

pageTests('a double tap adds one can', async (opened) => {
  await newRoom(opened);
  const spot = await middleOf(opened.page.locator('.tools').getByRole('button', { name: 'Can', exact: true }));
  if (opened.isTouched) for (let i = 0; i < 2; ++i) await opened.page.touchscreen.tap(spot.x, spot.y);
  else await opened.page.mouse.dblclick(spot.x, spot.y);
  await opened.can(5).waitFor();
  await opened.lit();
  await opened.page.waitForTimeout(500);
  assert.equal(await opened.cans().count(), 5);
});

pageTests('the walls of an L are moved as wholes and stay square', async (opened) => {
  await opened.openDemo('l-shaped-den');
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Room', exact: true }));
  assert.deepEqual(await opened.page.locator('.corner').allTextContents(), ['1', '2', '3', '4', '5', '6']);
  await type(opened, 'nook wall, from the west wall', '11ft');
  const text = await opened.changed((now) => now.includes('11ft'));
  assert.match(text, /\["11ft", "9ft"\],\s*\["11ft", "16ft"\]/);
  await opened.press(opened.button('Close: Room'));
});

pageTests('all cans change their type at once, and a type that no can has goes', async (opened) => {
  await opened.openDemo('l-shaped-den');
  await openThing(opened, /^Can 1,/);
  const before = await opened.text();
  await opened.press(opened.button('Give all cans this type'));
  const given = await opened.changed((text) => text !== before);
  const types = (text: string): ReadonlySet<string> =>
    new Set([...text.matchAll(/^type = "(.*)"/gm)].map((found) => found[1] ?? ''));
  assert.equal(types(before).size, 2);
  assert.deepEqual([...types(given)], ['six_inch']);
  await opened.press(opened.button(/Remove the type/));
  const left = await opened.changed((text) => text !== given);
  assert.equal(left.match(/^\[can_types\./gm)?.length, 1);
  await opened.press(opened.button('Close: Can 1'));
});

pageTests('the last can has no button that the job would refuse', async (opened) => {
  await newRoom(opened);
  for (let left = 4; left > 1; --left) {
    await openThing(opened, /^Can 1,/);
    await opened.press(opened.button('Remove'));
    await eventually(async () => assert.equal(await opened.cans().count(), left - 1));
    if (await opened.button('Close: Can 1').count()) await opened.press(opened.button('Close: Can 1'));
    await opened.press(opened.page.getByText('All that is in the room'));
  }
  await openThing(opened, /^Can 1,/);
  await opened.page.getByText('The last can stays').waitFor();
  assert.equal(await opened.button('Remove').count(), 0);
  await opened.press(opened.button('Close: Can 1'));
});

pageTests('a field that cannot be empty says so in plain words', async (opened) => {
  await newRoom(opened);
  await opened.press(opened.page.locator('.tools').getByRole('button', { name: 'Room', exact: true }));
  await type(opened, 'Ceiling above the floor', '');
  const told = opened.page.locator('.entry', { has: opened.field('Ceiling above the floor') }).locator('.wrong');
  await eventually(async () =>
    assert.equal(await told.innerText(), 'This cannot be empty: The room has no ceiling'),
  );
  await opened.press(opened.button('Close: Room'));
});
