import { describePair } from '../support/check-pair.js';

describePair('duplicate-line');
