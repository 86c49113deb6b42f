// Keeps the screen from going dark while something is flown. Browsers let pages do so over HTTPS or on the
// machine itself only; elsewhere the screen sleeps as the system is set.

export class Awake {
  /** @type {WakeLockSentinel | null} */ #lock = null;
  #wanted = false;
  #asking = false;

  constructor() {
    document.addEventListener('visibilitychange', () => this.#settle()); // a hidden page loses its lock
  }

  /** Whether this browser can do it here. */
  get able() {
    return 'wakeLock' in navigator;
  }

  /** Holds the screen, or lets it go. @param {boolean} on */
  want(on) {
    if (on === this.#wanted) return;
    this.#wanted = on;
    this.#settle();
  }

  #settle() {
    const hold = this.#wanted && document.visibilityState === 'visible';
    if (!hold) {
      void this.#lock?.release().catch(() => {});
      this.#lock = null;
    } else if (this.#lock === null && this.able && !this.#asking) void this.#ask();
  }

  async #ask() {
    this.#asking = true;
    try {
      const lock = await navigator.wakeLock.request('screen');
      this.#lock = lock;
      lock.addEventListener('release', () => {
        if (this.#lock === lock) this.#lock = null;
      });
    } catch {
      // a low battery, or the user's own setting: it sleeps as it likes
    }
    this.#asking = false;
    if (!this.#wanted) this.#settle();
  }
}
