/** In the place of boot-snapshot.mjs: Pyodide as its own documentation has it loaded, and the calculators unpacked from a zip. */

import { answerWith } from "./pyodide-files.mjs";

const STOCK = new URL("../stock/", self.location.href).href;

export async function bootSnapshot({ standards }) {
  const zip = fetch(`${STOCK}calculators.zip`).then((response) => response.arrayBuffer());
  const { loadPyodide } = await import(`${STOCK}pyodide.mjs`);
  const python = await loadPyodide({ indexURL: STOCK });
  python.unpackArchive(await zip, "zip");
  return answerWith(python, await standards);
}
