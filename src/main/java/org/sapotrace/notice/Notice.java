package org.sapotrace.notice;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Something that others are told, recorded together with what it tells of.
 *
 * @param id its identifier, the same wherever and whenever it is told; rises within the stream
 * @param stream the stream it came of
 * @param line the slug of the stream's line; null for a stream under no line, which concerns all
 * @param about the identifier of the signal or result that it tells of; null for neither
 * @param source the address of the stream
 * @param subject the address of what it tells of
 */
public record Notice(
    UUID id,
    UUID stream,
    @Nullable String line,
    NoticeType type,
    @Nullable UUID about,
    String source,
    String subject,
    Instant at,
    Tidings tidings) {}
