// What we use of exifreader. Its own types refer to Node's, which would let Node into the pure engine unseen.

declare module 'exifreader/dist/exif-reader.js' {
  const reader: {
    /** @throws errors of its own, RangeError or TypeError for damaged notes */
    load(
      bytes: ArrayBuffer,
      options: {
        readonly expanded: true;
        readonly includeUnknown: false;
        readonly domParser: { parseFromString(text: string, type: string): unknown };
      },
    ): unknown;
  };
  export { reader as default };
}
