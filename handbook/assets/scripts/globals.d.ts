// Names that build_scripts/bundle_scripts.py writes into the scripts, and packages that bring no types of their own.

/** Where the served worker finds its files, relative to the folder of worker.js. */
declare const RUNTIME_FILES: {
  readonly loader: string;
  readonly wasm: string;
  readonly snapshot: string;
  readonly library: string;
  readonly standards: string;
  readonly procedures: string;
};

/** How much a page reads to start Python each way, in megabytes, as it is told to the reader. */
declare const PYTHON_MEGABYTES: Readonly<Record<"served" | "disk", Readonly<Record<"snapshot" | "ordinary", string>>>>;

/** The part of Pyodide's lock file that says which Python this is. No package is ever listed. */
declare const PYODIDE_INFO: { readonly abi_version: string; readonly arch: "wasm32"; readonly platform: string; readonly version: string; readonly python: string };

/**
 * Everything to be saved on the device, and what is saved after it in case something fails, each file of that named by
 * its content; build_scripts/precache.py puts the lists in the place of this name.
 */
declare const RELEASE_TO_SAVE: {
  readonly revision: string;
  readonly digest: string;
  readonly files: readonly import("./file-content.mjs").ListedFile[];
  readonly spare: readonly import("./file-content.mjs").ListedFile[];
};

declare module "pyodide/pyodide.mjs" {
  export const loadPyodide: typeof import("pyodide").loadPyodide;
}

declare module "pyodide/pyodide.asm.mjs" {
  const createPyodideModule: NonNullable<import("pyodide").PyodideConfig["createPyodideModule"]>;
  export default createPyodideModule;
}

interface Uint8ArrayConstructor {
  /** In newer engines only. */
  fromBase64?(text: string): Uint8Array<ArrayBuffer>;
}

interface Window {
  /** The theme's stream of documents: fires for the first page and after each instant navigation. */
  document$?: { subscribe(next: (document: Document) => void): void };
  /** Filled by the scripts of assets/runtime/disk/, which stand in for files that a page from disk cannot fetch. */
  threepinDisk?: Record<string, string>;
  /** Left by start-early.js for page.js. */
  threepinOpenedAhead?: import("./opened-ahead.mjs").OpenedAhead;
}

/** Left by python-loader.js in the worker that reads it. */
declare var threepinPython:
  | { loadPyodide: typeof import("pyodide").loadPyodide; createPyodideModule: NonNullable<import("pyodide").PyodideConfig["createPyodideModule"]> }
  | undefined;

/** The part of a service worker's scope that is used; the checker knows pages and service workers only one at a time. */
interface ServiceWorkerScope {
  readonly registration: ServiceWorkerRegistration;
  readonly clients: {
    matchAll(options: { includeUncontrolled?: boolean; type?: "all" }): Promise<readonly ServiceWorkerClient[]>;
    claim(): Promise<void>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(kind: "install" | "activate", listener: (event: ExtendableEvent) => void): void;
  addEventListener(kind: "fetch", listener: (event: ServiceWorkerFetch) => void): void;
  addEventListener(kind: "message", listener: (event: ServiceWorkerMessage) => void): void;
}

interface ServiceWorkerClient {
  readonly id: string;
  readonly type: "window" | "worker" | "sharedworker";
  readonly url: string;
  postMessage(message: unknown): void;
}

interface ExtendableEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}

interface ServiceWorkerFetch extends ExtendableEvent {
  readonly request: Request;
  readonly clientId: string;
  respondWith(response: Promise<Response>): void;
}

interface ServiceWorkerMessage extends ExtendableEvent {
  readonly data: any;
  readonly ports: readonly MessagePort[];
  readonly source: ServiceWorkerClient | null;
}

/** Chromium offers to install a page as an app, and lets the page say when. */
interface BeforeInstallPromptEvent extends Event {
  prompt(): Promise<unknown>;
}
