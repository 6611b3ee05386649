import { afterEach, expect, it, vi } from 'vitest';
import { packValue } from '../../../core/contract/packed';
import { createBrowserLink } from '../../../renderer/link/browser-link';

afterEach(() => vi.unstubAllGlobals());

it('[BE7] what is too large is not sent, and is told by what it is', async () => {
  const asked: string[] = [];
  vi.stubGlobal('location', { hash: '', pathname: '/' });
  vi.stubGlobal('sessionStorage', { getItem: () => 'a token' });
  vi.stubGlobal('fetch', (address: string) => {
    asked.push(address);
    return Promise.resolve(
      new Response(Uint8Array.from(packValue({ mostPhotoBytes: 2 ** 20, mostArchiveBytes: 2 ** 21 }))),
    );
  });
  const file = (name: string): File => new File([new Uint8Array(2 ** 21 + 1)], name);
  const [photo, unit] = await createBrowserLink().addPhotos([file('photo.jpg'), file('Unit.EVENDIAL')]);
  expect(photo).toMatchObject({ code: 'PHOTO_TOO_LARGE', remedy: expect.stringContaining('Cut the photo') as string });
  expect(unit).toMatchObject({
    code: 'ARCHIVE_TOO_LARGE',
    message: 'Unit.EVENDIAL is too large to be taken in here: more than 2 MiB.',
    remedy: expect.stringContaining('command line') as string,
  });
  expect(asked.filter((address) => address.includes('/photos'))).toEqual([]);
});
