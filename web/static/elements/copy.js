// A button that copies what stands beside it.

import { attr, h, text } from '../dom.js';
import { t } from '../pure/text.js';

/**
 * @param {HTMLElement} from whose text is copied @param {HTMLElement} said where it says that it did
 * @param {string} label for those who do not see what it stands beside
 */
export function copyButton(from, said, label) {
  const button = h('button', { type: 'button', class: 'copy' }, t('Copy'));
  attr(button, 'aria-label', label);
  button.addEventListener('click', async () => {
    try {
      await navigator.clipboard.writeText(from.textContent ?? '');
      text(said, t('Copied'));
    } catch {
      getSelection()?.selectAllChildren(from); // without leave to copy it is marked, to be copied by hand
      text(said, t('Marked: copy it with Ctrl+C'));
    }
  });
  return button;
}
