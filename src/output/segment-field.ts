export * from '../geometry/segment-field.js';
