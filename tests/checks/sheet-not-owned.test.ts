import { describePair } from '../support/check-pair.js';

describePair('sheet-not-owned');
