import { describePair } from '../support/check-pair.js';

describePair('board-too-small');
