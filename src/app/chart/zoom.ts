/** A projector's sheet is drawn as a smaller one and enlarged, type and all: it is read from the back of the room. */
const projector = matchMedia("(min-width: 1700px)");
const PROJECTOR_ZOOM = 1.25;

/** Screen px for one of a drawing. */
export const zoom = (): number => (projector.matches ? PROJECTOR_ZOOM : 1);
