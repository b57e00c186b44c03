import { describePair } from '../support/check-pair.js';

describePair('small-piece');
