/**
 * Offers to install the handbook as an app: only where the browser offers it, until the reader says no, and again
 * never on this device. It stands with the words on what is saved and covers nothing.
 */

const DISMISSED = "threepin.no-install-hint";

export class InstallHint {
  /** @type {BeforeInstallPromptEvent | null} */
  #offered = null;

  /** @param {() => void} onChange */
  constructor(onChange) {
    this.onChange = onChange;
    window.addEventListener("beforeinstallprompt", (event) => {
      event.preventDefault();
      this.#set(/** @type {BeforeInstallPromptEvent} */ (event));
    });
    window.addEventListener("appinstalled", () => this.#set(null));
  }

  get isOffered() {
    return this.#offered !== null && !isDismissed();
  }

  /** Have the browser ask. What it offers can be used once. */
  async install() {
    const offered = this.#offered;
    this.#set(null);
    await offered?.prompt();
  }

  dismiss() {
    try {
      localStorage.setItem(DISMISSED, new Date().toISOString());
    } catch {
      // Nothing can be kept here: then the answer holds for this visit.
    }
    this.#set(null);
  }

  /** @param {BeforeInstallPromptEvent | null} offered */
  #set(offered) {
    this.#offered = offered;
    this.onChange();
  }
}

function isDismissed() {
  try {
    return localStorage.getItem(DISMISSED) !== null;
  } catch {
    return false;
  }
}
