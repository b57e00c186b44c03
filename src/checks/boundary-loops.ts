export { boundaryLoops } from '../plane/boundary-loops.js';
