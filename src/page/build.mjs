// Makes the blank page, one HTML file: node build.mjs PROGRAM-FOLDER OUT.html
// The folder holds evenlit.js and evenlit.wasm as emscripten makes them.

import { build } from 'esbuild';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const [folder, out] = process.argv.slice(2);
const here = dirname(fileURLToPath(import.meta.url));
const scenes = resolve(here, '../../scenes');

const bundled = async (entry, plugins) => {
  const made = await build({
    entryPoints: [join(here, entry)],
    bundle: true,
    write: false,
    minify: true,
    format: 'iife',
    target: 'es2022',
    charset: 'utf8',
    legalComments: 'none',
    logLevel: 'warning',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    plugins,
  });
  return made.outputFiles[0].text;
};

/** A module whose content is made here. */
const given = (name, contents, loader) => ({
  name,
  setup(bundle) {
    bundle.onResolve({ filter: new RegExp(`^${name}$`) }, () => ({ path: name, namespace: name }));
    bundle.onLoad({ filter: /.*/, namespace: name }, () => ({ contents, loader, resolveDir: here }));
  },
});

// What the program would use under node; the worker never gets there.
const nodeModules = ['fs', 'path', 'crypto', 'url', 'module', 'tty'].map((name) => given(name, 'module.exports = {};', 'js'));
const program = given('evenlit-program', readFileSync(join(folder, 'evenlit.js'), 'utf8'), 'js');
const worker = await bundled('engine/worker.ts', [program, ...nodeModules]);
const script = (await bundled('main.tsx', [given('worker-script', worker, 'text')])).replaceAll('</script', '<\\/script');

const style = (
  await build({ entryPoints: [join(here, 'page.css')], bundle: true, write: false, minify: true, charset: 'utf8' })
).outputFiles[0].text;

/** A job and the photometric files that it names. */
const demo = (name) => {
  const text = readFileSync(join(scenes, name), 'utf8');
  const named = [...text.matchAll(/^file = "(.*)"/gm)].map((match) => match[1]);
  return { name, text, files: Object.fromEntries(named.map((file) => [file, readFileSync(join(scenes, file), 'base64')])) };
};
const demos = JSON.stringify(readdirSync(scenes).filter((name) => name.endsWith('.toml')).map(demo)).replaceAll('<', '\\u003c');

const policy = [
  "default-src 'none'",
  `script-src 'sha256-${createHash('sha256').update(script).digest('base64')}' 'wasm-unsafe-eval'`,
  'worker-src blob:',
  "style-src 'unsafe-inline'",
  'img-src blob: data:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

const parts = {
  policy,
  style,
  demos,
  program: gzipSync(readFileSync(join(folder, 'evenlit.wasm')), { level: 9 }).toString('base64'),
  script,
};
const page = readFileSync(join(here, 'blank.html'), 'utf8').replace(/\{\{(\w+)\}\}/g, (_, name) => parts[name]);
writeFileSync(out, page);
