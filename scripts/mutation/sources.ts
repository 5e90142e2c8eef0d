import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import ts from 'typescript';

export const root = fileURLToPath(new URL('../../', import.meta.url));

type Exports = Record<string, unknown>;
type Body = (exports: Exports, require: (path: string) => unknown, url: string) => void;
type Compiled = { readonly body: Body; readonly imports: readonly string[] };

/** What stands in for packages: the test runner's own names. */
export type StandIns = Readonly<Record<string, Exports>>;

const compile = (file: string, text: string): Compiled => {
  const { outputText } = ts.transpileModule(text, {
    fileName: file,
    compilerOptions: {
      module: ts.ModuleKind.CommonJS,
      target: ts.ScriptTarget.ES2022,
      jsx: ts.JsxEmit.ReactJSX,
      esModuleInterop: true,
    },
  });
  const code = outputText.replaceAll('import.meta.url', 'moduleUrl');
  const imports = [...code.matchAll(/require\("(\.[^"]+)"\)/g)].map(([, path = '']) => resolve(dirname(file), path));
  return {
    body: new Script(`(function (exports, require, moduleUrl) {${code}\n})`, { filename: file }).runInThisContext() as Body,
    imports,
  };
};

/**
 * The project's modules, evaluated from memory in this process: some files with another text than on the disk, and everything
 * that leads to them evaluated anew whenever it is asked for. What does not lead to them is evaluated once.
 */
export class Sources {
  readonly #texts: ReadonlyMap<string, string>;
  readonly #standIns: StandIns;
  readonly #compiled = new Map<string, Compiled>();
  readonly #leads = new Map<string, boolean>();
  readonly #lasting = new Map<string, Exports>();
  readonly #packages = createRequire(join(root, 'package.json'));

  /** `texts` by path from the root: what these files hold instead. */
  constructor(texts: ReadonlyMap<string, string>, standIns: StandIns) {
    this.#texts = new Map([...texts].map(([path, text]) => [join(root, path), text]));
    this.#standIns = standIns;
  }

  /** Evaluates a file and what it imports, as if for the first time. */
  evaluate(path: string): Exports {
    return this.#load(join(root, path), new Map());
  }

  #load(file: string, fresh: Map<string, Exports>): Exports {
    const loaded = this.#leadsToText(file, new Set()) ? fresh : this.#lasting;
    const known = loaded.get(file);
    if (known !== undefined) return known;
    const exports: Exports = {};
    loaded.set(file, exports);
    this.#of(file).body(exports, (path) => this.#required(file, path, fresh), pathToFileURL(file).href);
    return exports;
  }

  #required(from: string, path: string, fresh: Map<string, Exports>): unknown {
    const standIn = this.#standIns[path];
    if (standIn !== undefined) return standIn;
    const file = resolve(dirname(from), path);
    if (!path.startsWith('.')) return this.#packages(path);
    if (/\.tsx?$/.test(file)) return this.#load(file, fresh);
    if (existsSync(file)) return JSON.parse(readFileSync(file, 'utf8')) as unknown;
    throw new Error(`${relative(root, from)} imports ${path}, which is not there`);
  }

  #of(file: string): Compiled {
    const known = this.#compiled.get(file);
    if (known !== undefined) return known;
    const compiled = compile(file, this.#texts.get(file) ?? readFileSync(file, 'utf8'));
    this.#compiled.set(file, compiled);
    return compiled;
  }

  /** Whether a file is one of those with another text, or imports one, near or far. */
  #leadsToText(file: string, visiting: Set<string>): boolean {
    if (this.#texts.has(file)) return true;
    const known = this.#leads.get(file);
    if (known !== undefined) return known;
    if (visiting.has(file) || !/\.tsx?$/.test(file)) return false;
    visiting.add(file);
    const leads = this.#of(file).imports.some((each) => this.#leadsToText(each, visiting));
    this.#leads.set(file, leads);
    return leads;
  }
}
