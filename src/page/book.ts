import { showContents } from './book/contents.js';
import { printButtons } from './book/print.js';
import { mountScene } from './book/scene.js';
import { themeButton } from './book/theme.js';

themeButton();
printButtons();
showContents();
mountScene();
