/**
 * Pyodide refuses a classic worker, which it knows by importScripts, and only because it would load its files with
 * import(). It is given them here, so nothing is lost; and a classic worker is the one kind that every engine also
 * starts from disk. Must come before Pyodide in the bundle.
 */
Object.defineProperty(self, "importScripts", { value: undefined });
