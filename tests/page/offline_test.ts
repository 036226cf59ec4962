import assert from 'node:assert/strict';
import { readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { test } from 'node:test';
import { k_page } from './opened_page';
import { pageTest } from './page_tests';

test('the page is small enough to mail', () => {
  assert.ok(statSync(k_page).size < 3_000_000);
});

test('the page allows no place that anything could come from or go to', () => {
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(readFileSync(k_page, 'utf8'))?.[1] ?? '';
  const directives = new Map(policy.split('; ').map((directive) => [directive.split(' ')[0], directive.split(' ').slice(1)]));
  assert.deepEqual(directives.get('default-src'), ["'none'"]);
  assert.equal(directives.has('connect-src'), false);
  for (const source of [...directives.values()].flat()) {
    assert.match(source, /^('none'|'unsafe-inline'|'wasm-unsafe-eval'|'sha256-[\w+/=]+'|blob:|data:)$/);
  }
  assert.ok(!directives.get('script-src')?.includes("'unsafe-inline'"));
});

pageTest('a script that got into the page could reach nobody', 'desktop', async (opened) => {
  let requests = 0;
  const server = createServer((_, response) => {
    ++requests;
    response.end();
  });
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready));
  const { port } = server.address() as AddressInfo;
  const said = await opened.page.evaluate(async (address) => {
    const failed = await fetch(address).then(
      () => 'reached',
      () => 'kept in',
    );
    const image = new Image();
    const seen = new Promise<string>((tell) => {
      image.onload = () => tell('reached');
      image.onerror = () => tell('kept in');
    });
    image.src = `${address}/picture.png`;
    const script = document.createElement('script');
    script.src = `${address}/script.js`;
    document.head.append(script);
    const beacon = navigator.sendBeacon(`${address}/beacon`);
    const inline = document.createElement('script');
    inline.textContent = 'globalThis.hurt = true';
    document.head.append(inline);
    await new Promise((go) => setTimeout(go, 500));
    return [failed, await seen, beacon, Reflect.get(globalThis, 'hurt')];
  }, `http://127.0.0.1:${port}`);
  server.close();
  assert.equal(requests, 0);
  assert.deepEqual([said[0], said[1], said[3]], ['kept in', 'kept in', undefined]);
  // The browser tells of what it kept in; all of that was this test's doing.
  assert.ok(opened.faults.length > 0);
  opened.faults.splice(0);
});
