import { describePair } from '../support/check-pair.js';

describePair('hole-near-line');
