/** How a record names what made it. */
export const SOFTWARE = 'seatcall 0.1.0';
