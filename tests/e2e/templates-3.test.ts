import { checkStarters } from '../support/starter-checks.js';

checkStarters(3);
