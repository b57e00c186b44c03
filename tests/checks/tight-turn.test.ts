import { describePair } from '../support/check-pair.js';

describePair('tight-turn');
