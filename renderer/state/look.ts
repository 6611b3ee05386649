import { signal } from '@preact/signals';

const surrounds = ['dark', 'black', 'middle', 'light'] as const;
const key = 'evendial-look';

interface LookChoice {
  readonly theme: 'dark' | 'light';
  readonly surround: (typeof surrounds)[number];
  /** Keys without Ctrl act: they get in the way of whoever speaks to the machine. @source WCAG 2.2, 2.1.4 */
  readonly plainKeys: 'on' | 'off';
}

function storedChoice(storage: Storage): LookChoice {
  const [theme, surround, plainKeys] = (storage.getItem(key) ?? '').split(' ');
  return {
    theme: theme === 'light' ? 'light' : 'dark',
    surround: surrounds.find((name) => name === surround) ?? 'dark',
    plainKeys: plainKeys === 'off' ? 'off' : 'on',
  };
}

/** Theme, the grey round the photos and whether plain keys act, kept on this machine from one start to the next. */
export class Look {
  readonly choice = signal<LookChoice>({ theme: 'dark', surround: 'dark', plainKeys: 'on' });

  constructor(
    readonly root: HTMLElement,
    readonly storage: Storage,
  ) {
    this.#use(storedChoice(storage));
  }

  otherTheme(): void {
    const theme = this.choice.value.theme === 'dark' ? 'light' : 'dark';
    // A lit window needs grey round it in the light theme as well, but a middle one, or the page jumps to the eye.
    this.#use({ ...this.choice.value, theme, surround: theme === 'light' ? 'light' : 'dark' });
  }

  nextSurround(): void {
    const { surround } = this.choice.value;
    this.#use({ ...this.choice.value, surround: surrounds[(surrounds.indexOf(surround) + 1) % surrounds.length] });
  }

  switchPlainKeys(plainKeys: 'on' | 'off'): void {
    this.#use({ ...this.choice.value, plainKeys });
  }

  #use(choice: LookChoice): void {
    this.choice.value = choice;
    this.root.dataset['theme'] = choice.theme;
    this.root.dataset['surround'] = choice.surround;
    this.root.dataset['plainKeys'] = choice.plainKeys;
    this.storage.setItem(key, `${choice.theme} ${choice.surround} ${choice.plainKeys}`);
  }
}
