// Runs evenlit as built for WebAssembly, with the files of scenes/ and photometry/ in its memory:
// node scripts/wasm_run.cjs COMMAND ...

const fs = require('node:fs');
const evenlit = require('../.build/wasm/evenlit.js');

const wasmBinary = fs.readFileSync('.build/wasm/evenlit.wasm');
evenlit({ wasmBinary, print: console.log, printErr: console.error }).then((program) => {
  for (const folder of ['scenes', 'photometry']) {
    program.FS.mkdir(folder);
    for (const name of fs.readdirSync(folder)) program.FS.writeFile(`${folder}/${name}`, fs.readFileSync(`${folder}/${name}`));
  }
  process.exitCode = program.callMain(process.argv.slice(2));
});
