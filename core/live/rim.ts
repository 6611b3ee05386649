/** For the page: a round window's corners from points on its rim. */
export { cornersOfRim, leastRimPoints } from '../window/rim-ellipse';
