import { describePair } from '../support/check-pair.js';

describePair('label-outside');
