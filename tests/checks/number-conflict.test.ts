import { describePair } from '../support/check-pair.js';

describePair('number-conflict');
