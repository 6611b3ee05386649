import { signal } from '@preact/signals';

const surrounds = ['dark', 'black', 'middle', 'light'] as const;
const key = 'evendial-look';

interface LookChoice {
  readonly theme: 'dark' | 'light';
  readonly surround: (typeof surrounds)[number];
}

function storedChoice(storage: Storage): LookChoice {
  const [theme, surround] = (storage.getItem(key) ?? '').split(' ');
  return {
    theme: theme === 'light' ? 'light' : 'dark',
    surround: surrounds.find((name) => name === surround) ?? 'dark',
  };
}

/** Theme and the grey round the photos, kept on this machine from one start to the next. */
export class Look {
  readonly choice = signal<LookChoice>({ theme: 'dark', surround: 'dark' });

  constructor(
    readonly root: HTMLElement,
    readonly storage: Storage,
  ) {
    this.#use(storedChoice(storage));
  }

  otherTheme(): void {
    const theme = this.choice.value.theme === 'dark' ? 'light' : 'dark';
    // A lit window needs grey round it in the light theme as well, but a middle one, or the page jumps to the eye.
    this.#use({ theme, surround: theme === 'light' ? 'light' : 'dark' });
  }

  nextSurround(): void {
    const { surround } = this.choice.value;
    this.#use({ ...this.choice.value, surround: surrounds[(surrounds.indexOf(surround) + 1) % surrounds.length] });
  }

  #use(choice: LookChoice): void {
    this.choice.value = choice;
    this.root.dataset['theme'] = choice.theme;
    this.root.dataset['surround'] = choice.surround;
    this.storage.setItem(key, `${choice.theme} ${choice.surround}`);
  }
}
