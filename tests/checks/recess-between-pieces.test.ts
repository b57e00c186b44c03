import { describePair } from '../support/check-pair.js';

describePair('recess-between-pieces');
