/* appearance.h: light or dark, and the contrast, as the desktop says it. */
#pragma once

/* Follows the desktop's settings by its portal, from now on; where there is none the toolkit's own
 * settings hold. Called once, when there is a display. */
void appearance_follow(void);
