/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/hash.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define N 100000

static void
the_same_question_has_the_same_answer (void)
{
  guint64 before = hob_hash_mix (1, 2, 3);

  for (guint64 i = 0; i < 100; i++)
    hob_hash_normal (i, i, i);
  g_assert_cmpuint (hob_hash_mix (1, 2, 3), ==, before);
}

/* The numbers of a seed are part of every recorded run: they may not change between versions. */
static void
a_seed_keeps_its_numbers (void)
{
  g_assert_cmphex (hob_hash_mix (0, 0, 0), ==, G_GUINT64_CONSTANT (0xfbe988335f36c931));
  g_assert_cmphex (hob_hash_mix (1, 2, 3), ==, G_GUINT64_CONSTANT (0xb19f667b2781fdf0));
}

static void
seed_part_and_count_are_told_apart (void)
{
  guint64 all[] = { hob_hash_mix (0, 0, 0), hob_hash_mix (1, 0, 0), hob_hash_mix (0, 1, 0),
                    hob_hash_mix (0, 0, 1), hob_hash_mix (1, 1, 0), hob_hash_mix (0, 1, 1),
                    hob_hash_mix (1, 0, 1), hob_hash_mix (1, 1, 1) };

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    for (guint j = 0; j < i; j++)
      g_assert_cmphex (all[i], !=, all[j]);
}

static void
one_changed_bit_changes_half_of_all (void)
{
  double flipped = 0;

  for (guint64 i = 0; i < 1000; i++)
    for (int bit = 0; bit < 64; bit++)
      flipped += __builtin_popcountll (hob_hash_mix (7, 5, i)
                                       ^ hob_hash_mix (7, 5, i ^ (G_GUINT64_CONSTANT (1) << bit)));
  /* 64,000 draws of 64 fair bits: the mean's standard error is 0.016. */
  g_assert_cmpfloat_with_epsilon (flipped / 64000.0, 32.0, 0.08);
}

static void
uniform_numbers_fill_their_span_evenly (void)
{
  int tenth[10] = { 0 };
  double sum = 0, squares = 0;

  for (guint64 i = 0; i < N; i++)
    {
      double u = hob_hash_uniform (11, 3, i);

      g_assert_true (u >= 0.0 && u < 1.0);
      tenth[(int) (10.0 * u)]++;
      sum += u;
      squares += u * u;
    }
  /* Standard errors: mean 0.0009, mean square 0.0009, a tenth's count 95. */
  g_assert_cmpfloat_with_epsilon (sum / N, 0.5, 0.0045);
  g_assert_cmpfloat_with_epsilon (squares / N, 1.0 / 3.0, 0.0045);
  for (int i = 0; i < 10; i++)
    g_assert_cmpint (abs (tenth[i] - N / 10), <, 475);
}

static void
neighbours_are_not_related (void)
{
  double product = 0;

  for (guint64 i = 0; i < N; i++)
    product += (hob_hash_uniform (11, 3, i) - 0.5) * (hob_hash_uniform (11, 3, i + 1) - 0.5);
  g_assert_cmpfloat_with_epsilon (product / N, 0.0, 5 * (1.0 / 12.0) / sqrt (N));
}

static int
compare_doubles (const void *a, const void *b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* Kolmogorov's distance from the normal distribution, by erfc. */
static void
normal_numbers_are_normal (void)
{
  g_autofree double *x = g_new (double, N);
  double largest = 0;

  for (guint64 i = 0; i < N; i++)
    {
      x[i] = hob_hash_normal (5, 9, i);
      g_assert_true (isfinite (x[i]));
    }
  qsort (x, N, sizeof *x, compare_doubles);
  for (int i = 0; i < N; i++)
    largest = MAX (largest, fabs (0.5 * erfc (-x[i] * G_SQRT2 / 2.0) - (i + 0.5) / N));
  g_assert_cmpfloat (largest, <, 1.95 / sqrt (N)); /* exceeded by chance once in a thousand */
}

/* The number of one hash is the quantile of that hash: erfc gives it back. */
static void
a_normal_number_is_the_quantile_of_its_hash (void)
{
  for (guint64 i = 0; i < N; i++)
    {
      double p = ((double) (hob_hash_mix (5, 9, i) >> 12) + 0.5) * 0x1p-52;
      double x = hob_hash_normal (5, 9, i);
      double back = 0.5 * erfc (-x * G_SQRT2 / 2.0);

      g_assert_cmpfloat (fabs (back - p), <, 1e-12 * p + 1e-15);
    }
}

static void
a_block_tells_every_change (void)
{
  guint8 block[100] = { 0 };
  guint64 before = hob_hash_block (block, sizeof block);

  g_assert_cmphex (hob_hash_block (block, sizeof block), ==, before);
  for (guint i = 0; i < sizeof block; i++)
    {
      block[i] ^= 1;
      g_assert_cmphex (hob_hash_block (block, sizeof block), !=, before);
      block[i] ^= 1;
    }
}

static void
order_and_length_of_a_block_count (void)
{
  guint64 words[2] = { 1, 2 }, exchanged[2] = { 2, 1 };
  guint8 zeros[16] = { 0 };

  g_assert_cmphex (hob_hash_block (words, sizeof words), !=,
                   hob_hash_block (exchanged, sizeof exchanged));
  for (gsize n = 0; n < sizeof zeros; n++)
    g_assert_cmphex (hob_hash_block (zeros, n), !=, hob_hash_block (zeros, n + 1));
  g_assert_cmphex (hob_hash_block (NULL, 0), ==, hob_hash_block (zeros, 0));
}

static void
a_block_need_not_be_aligned (void)
{
  guint64 room[4];
  char *bytes = (char *) room;

  memcpy (bytes, "0123456789abcdef", 16);
  guint64 aligned = hob_hash_block (bytes, 16);
  memmove (bytes + 3, bytes, 16);
  g_assert_cmphex (hob_hash_block (bytes + 3, 16), ==, aligned);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/hash/the same question has the same answer",
                   the_same_question_has_the_same_answer);
  g_test_add_func ("/base/hash/a seed keeps its numbers", a_seed_keeps_its_numbers);
  g_test_add_func ("/base/hash/seed, part and count are told apart",
                   seed_part_and_count_are_told_apart);
  g_test_add_func ("/base/hash/one changed bit changes half of all",
                   one_changed_bit_changes_half_of_all);
  g_test_add_func ("/base/hash/uniform numbers fill their span evenly",
                   uniform_numbers_fill_their_span_evenly);
  g_test_add_func ("/base/hash/neighbours are not related", neighbours_are_not_related);
  g_test_add_func ("/base/hash/normal numbers are normal", normal_numbers_are_normal);
  g_test_add_func ("/base/hash/a normal number is the quantile of its hash",
                   a_normal_number_is_the_quantile_of_its_hash);
  g_test_add_func ("/base/hash/a block tells every change", a_block_tells_every_change);
  g_test_add_func ("/base/hash/order and length of a block count",
                   order_and_length_of_a_block_count);
  g_test_add_func ("/base/hash/a block need not be aligned", a_block_need_not_be_aligned);
  return g_test_run ();
}
