// The window's geometry reads these too, and photo and window do not know each other: the types live in base.
export * from '../base/linear-photo';
