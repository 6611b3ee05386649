export { brindleJpeg, brindleLinear } from './camera/presets';
export type { Pose } from './camera/pose';
export type { Lamp, Box, Shade } from './light/lamp';
export { renderCodes, type RenderedPhoto, renderPhoto } from './render-photo';
export type { Camera, FileFormat, PlacedWindow, ProfileName, Scene } from './scene';
export { type Truth, truthOf, type TruthFigures, type WindowTruth } from './truth/truth';
export type { LitWindow, Outline, PrintName } from './window-scene';
