import { describePair } from '../support/check-pair.js';

describePair('recess-without-host');
