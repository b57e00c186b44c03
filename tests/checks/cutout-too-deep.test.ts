import { describePair } from '../support/check-pair.js';

describePair('cutout-too-deep');
