package org.sapotrace.titrant;

import java.util.UUID;

/**
 * A titrant lot on record.
 *
 * @param declared what was said of it
 * @param stream the identifier of its strength stream, whose results are its standardisations
 * @param version counts the changes, from 1
 */
public record TitrantLot(LotDeclaration declared, UUID stream, int version) {}
