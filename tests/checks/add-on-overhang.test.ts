import { describePair } from '../support/check-pair.js';

describePair('add-on-overhang');
