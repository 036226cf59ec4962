import workerScript from 'worker-script';
import type { Command, Done, Files, FromEngine, ToEngine } from './messages';

/** A run was stopped before it ended, or the engine broke down in it. */
export class Stopped extends Error {}

interface Waiting {
  readonly resolve: (steps: readonly Done[]) => void;
  readonly reject: (why: Error) => void;
  readonly onProgress: ((text: string) => void) | undefined;
}

/** The compiled program that the page carries, gzipped, in base64. */
export async function programInPage(): Promise<WebAssembly.Module> {
  const text = document.getElementById('program')?.textContent ?? '';
  const packed = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const bytes = new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream('gzip')));
  return WebAssembly.compile(await bytes.arrayBuffer());
}

/**
 * The program `evenlit` in a worker of its own. Runs wait for each other. After a stop or a breakdown the next run starts
 * a new worker.
 */
export class Engine {
  private worker: Worker | undefined;
  private waiting = new Map<number, Waiting>();
  private lastId = 0;
  private rest: ReturnType<typeof setTimeout> | undefined;

  /** @param rest_ms after so long without a run it gives its memory back; the next one starts a new worker */
  constructor(
    private readonly program: Promise<WebAssembly.Module>,
    private readonly rest_ms?: number,
  ) {}

  /**
   * Runs commands one after another until one fails.
   *
   * @param files written before the first of them
   * @returns what each command did that ran
   */
  async run(files: Files, commands: readonly Command[], onProgress?: (text: string) => void): Promise<readonly Done[]> {
    const module = await this.program;
    const worker = this.worker ?? this.started(module);
    clearTimeout(this.rest);
    const id = ++this.lastId;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject, onProgress });
      worker.postMessage({ kind: 'run', id, files, commands } satisfies ToEngine);
    });
  }

  /** Ends what runs and what waits, at once. */
  stop(why = 'stopped'): void {
    this.worker?.terminate();
    this.worker = undefined;
    const ended = [...this.waiting.values()];
    this.waiting.clear();
    for (const { reject } of ended) reject(new Stopped(why));
  }

  private started(module: WebAssembly.Module): Worker {
    const address = URL.createObjectURL(new Blob([workerScript], { type: 'text/javascript' }));
    const worker = new Worker(address);
    URL.revokeObjectURL(address);
    worker.onmessage = ({ data }: MessageEvent<FromEngine>) => this.hear(data);
    worker.onerror = (event) => this.stop(event.message);
    worker.postMessage({ kind: 'start', module } satisfies ToEngine);
    this.worker = worker;
    return worker;
  }

  private hear(message: FromEngine): void {
    switch (message.kind) {
      case 'started':
        return;
      case 'progress':
        this.waiting.get(message.id)?.onProgress?.(message.text);
        return;
      case 'broken':
        this.stop(message.why);
        return;
      case 'done':
        this.waiting.get(message.id)?.resolve(message.steps);
        this.waiting.delete(message.id);
        if (this.rest_ms !== undefined && this.waiting.size === 0) this.rest = setTimeout(() => this.stop(), this.rest_ms);
    }
  }
}
