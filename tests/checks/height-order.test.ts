import { describePair } from '../support/check-pair.js';

describePair('height-order');
