/** Entry of the script that holds Pyodide's own JavaScript, for a classic worker. */

import "./hide-import-scripts.mjs";
import { loadPyodide } from "pyodide/pyodide.mjs";
import createPyodideModule from "pyodide/pyodide.asm.mjs";

self.threepinPython = { loadPyodide, createPyodideModule };
