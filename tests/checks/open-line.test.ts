import { describePair } from '../support/check-pair.js';

describePair('open-line');
