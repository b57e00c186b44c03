import { describePair } from '../support/check-pair.js';

describePair('no-readable-text');
