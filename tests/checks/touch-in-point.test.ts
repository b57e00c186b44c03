import { describePair } from '../support/check-pair.js';

describePair('touch-in-point');
