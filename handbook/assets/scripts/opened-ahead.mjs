/** A worker that is opened before there is anybody to listen to it, and handed over with all that it has said. */

/** @import { Connection, OpenWorker, WorkerEvents } from "./python-state.mjs" */

/**
 * @typedef {object} OpenedAhead
 * @property {boolean} shared
 * @property {(events: WorkerEvents) => Promise<Connection>} take
 */

/**
 * Open one that restores the snapshot, and leave it in window.threepinOpenedAhead.
 * @param {OpenWorker} openWorker
 * @param {boolean} shared
 */
export function openAhead(openWorker, shared) {
  const askedAt = performance.now();
  /** @type {((events: WorkerEvents) => void)[]} */
  let said = [];
  /** @type {WorkerEvents | null} */
  let hearing = null;
  const hear = (/** @type {(events: WorkerEvents) => void} */ one) => hearing ? one(hearing) : void said.push(one);
  const opening = openWorker("snapshot", shared, {
    onMessage: (message) => hear((events) => events.onMessage(message)),
    onError: (why) => hear((events) => events.onError(why)),
  });
  opening.catch(() => {}); // Said to whoever takes it.
  window.threepinOpenedAhead = {
    shared,
    take: async (events) => {
      const connection = await opening;
      setTimeout(() => { // Once it is known to whoever took it.
        hearing = events;
        for (const one of said.splice(0)) one(events);
      });
      return { ...connection, askedAt };
    },
  };
}

/**
 * The same opener, but for the first worker, which may be open already.
 * @param {OpenWorker} openWorker
 * @returns {OpenWorker}
 */
export function orOpenedAhead(openWorker) {
  return (way, shared, events) => {
    const ahead = window.threepinOpenedAhead;
    delete window.threepinOpenedAhead;
    return ahead && way === "snapshot" && ahead.shared === shared ? ahead.take(events) : openWorker(way, shared, events);
  };
}
