import { describePair } from '../support/check-pair.js';

describePair('opening-splits-piece');
