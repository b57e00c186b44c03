export * from '../geometry/segment-meeting.js';
