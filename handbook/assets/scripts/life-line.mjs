/**
 * How a page learns that its worker is gone, however it went: the worker holds a lock for as long as it lives, and
 * the browser gives it to whoever waits for it afterwards. No browser says otherwise that it has ended a worker.
 * Where there are no locks (from disk, or over plain http from another computer) a page notices by its patience.
 */

/**
 * @param {string} prefix Of the lock's name.
 * @returns {Promise<string>} The name of the lock, once it is held; empty where there are none.
 */
export function holdLifeLine(prefix) {
  const name = `${prefix} ${Math.random().toString(36).slice(2)}`;
  return new Promise((resolve) => {
    if (!navigator.locks) return resolve("");
    navigator.locks.request(name, () => {
      resolve(name);
      return new Promise(() => {});
    }).catch(() => resolve(""));
  });
}

/**
 * @param {string} name
 * @param {() => void} onGone
 * @returns {() => void} Stops waiting.
 */
export function followLifeLine(name, onGone) {
  if (!name || !navigator.locks) return () => {};
  const ending = new AbortController();
  navigator.locks.request(name, { mode: "shared", signal: ending.signal }, () => {
    if (!ending.signal.aborted) onGone();
  }).catch(() => {});
  return () => ending.abort();
}

/**
 * @param {string} prefix
 * @returns {Promise<boolean>} Whether a worker that holds such a lock is alive.
 */
export async function isAlive(prefix) {
  const { held } = await navigator.locks.query();
  return held?.some(({ name }) => name?.startsWith(`${prefix} `)) ?? false;
}
