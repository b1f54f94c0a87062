/** The theme fetches what it needs by XMLHttpRequest; here its requests are met as they are opened. */

/**
 * @param {(request: XMLHttpRequest, address: string) => void} meet Called before the request is sent.
 */
export function meetRequests(meet) {
  const { open } = XMLHttpRequest.prototype;
  /** @type {(this: XMLHttpRequest, ...parameters: any[]) => void} */
  XMLHttpRequest.prototype.open = function openMet(...parameters) {
    open.apply(this, /** @type {Parameters<typeof open>} */ (parameters));
    meet(this, new URL(parameters[1], location.href).href);
  };
}
