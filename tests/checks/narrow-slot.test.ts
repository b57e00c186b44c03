import { describePair } from '../support/check-pair.js';

describePair('narrow-slot');
